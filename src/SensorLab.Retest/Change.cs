namespace SensorLab.Retest;

/// <summary>Something that firmware is known to change, found between two profiles.</summary>
/// <param name="Code">One of <see cref="ChangeCode"/>.</param>
/// <param name="Iso">The ISO; null for all.</param>
/// <param name="Message">What changed and what it means, in a photographer's words.</param>
public sealed record Change(string Code, int? Iso, string Message);
