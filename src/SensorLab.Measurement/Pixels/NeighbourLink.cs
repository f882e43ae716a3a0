namespace SensorLab.Measurement.Pixels;

/// <summary>Two sites of a channel that are neighbours, in every repeat.</summary>
/// <param name="From">The one's plane.</param>
/// <param name="To">The other's plane.</param>
/// <param name="Down">Repeats from the one down to the other.</param>
/// <param name="Right">Repeats from the one to the right.</param>
internal readonly record struct NeighbourLink(int From, int To, int Down, int Right);
