namespace SensorLab.Profiles.Placement;

/// <summary>The bright end of an ISO under one light.</summary>
/// <param name="Name">The light; null for the one under which the set was shot.</param>
/// <param name="AboveEv">EV from middle grey to where the first channel saturates, the meter included.</param>
/// <param name="BrightestTexturedEv">Where a bright textured surface may sit at most: that less the sheet's guard.</param>
/// <param name="LimitingChannel">That channel; null where it is not known.</param>
public sealed record PocketLight(string? Name, Figure? AboveEv, Figure? BrightestTexturedEv, string? LimitingChannel);
