namespace SensorLab.Planning.Plans;

/// <summary>Something that the plan cannot reach or avoid, and the way out.</summary>
/// <param name="Code">clip-not-reached, shadow-not-reached, light-pulses, light-too-dim, time-not-reached, iso-between-stops, iso-not-predicted, ripple-of-other-lamps.</param>
/// <param name="Iso">The ISO; null for all.</param>
/// <param name="Message">What it is.</param>
/// <param name="Remedy">What to do.</param>
public sealed record PlanNotice(string Code, int? Iso, string Message, string Remedy);
