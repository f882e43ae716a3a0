namespace SensorLab.Profiles;

/// <summary>A point of a preview's tone curve.</summary>
/// <param name="Ev">EV relative to middle grey.</param>
/// <param name="Code">Green's mean code, 0 to 255.</param>
public sealed record ToneCurvePoint(double Ev, double Code);
