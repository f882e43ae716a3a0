namespace SensorLab.Profiles;

/// <summary>How often each code was met, over all frames of a level or an even sample of their rows.</summary>
/// <param name="FirstCodeDn">The code of the first count.</param>
/// <param name="Counts">Counts of consecutive codes.</param>
public sealed record CodeHistogram(int FirstCodeDn, IReadOnlyList<long> Counts);
