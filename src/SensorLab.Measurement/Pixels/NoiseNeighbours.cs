using SensorLab.Law;

namespace SensorLab.Measurement.Pixels;

/// <summary>How the temporal noise of neighbours goes together, inside a channel or over the channels; white noise has none.</summary>
/// <param name="Sides">Correlation of a site with the four beside, above and below it.</param>
/// <param name="Around">Correlation of a site with all eight around it.</param>
internal sealed record NoiseNeighbours(Estimate Sides, Estimate Around);
