namespace SensorLab.Planning.Plans;

/// <summary>The exposures of one ISO.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="Metered">The time at which the meter hovers at the upper edge of its zero; one click less is the lower edge.</param>
/// <param name="Levels">The bracket's levels, the darkest first.</param>
/// <param name="BrightestMissingEv">The brightest level that cannot be reached; null where all can.</param>
/// <param name="DarkestMissingEv">The darkest level that cannot be reached; null where all can.</param>
/// <param name="Seconds">What its frames take.</param>
internal sealed record IsoLayout(
    int Iso, ShutterTime Metered, IReadOnlyList<PlannedLevel> Levels, double? BrightestMissingEv, double? DarkestMissingEv, double Seconds)
{
    /// <summary>All times with light, in no order.</summary>
    public IEnumerable<ShutterTime> Times => Levels.Select(l => l.Time).Append(Metered).Append(Metered.Longer(-1));
}
