using SensorLab.Simulation.Rehearsals;

namespace SensorLab.FlawMatrix.Foreign;

/// <summary>A flaw as another simulator, or nature, would make it: with another law than the catalogue's.</summary>
/// <param name="Name">What tables call it.</param>
/// <param name="What">What happens, and the unit of the size.</param>
/// <param name="Codes">The findings of which any one names it.</param>
/// <param name="Sizes">The sizes at which it is tried.</param>
/// <param name="Begin">Draws what all frames of a set share, and returns what becomes of each.</param>
internal sealed record ForeignFlaw(string Name, string What, IReadOnlyList<string> Codes, IReadOnlyList<double> Sizes, Func<ForeignScene, Func<PlannedFrame, PlannedFrame>> Begin)
{
    /// <summary>By what the signal at saturation is multiplied at a size; the truth's own where nothing is.</summary>
    public Func<double, double> SaturationFactor { get; init; } = _ => 1;
}
