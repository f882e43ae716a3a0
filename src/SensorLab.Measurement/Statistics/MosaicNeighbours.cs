using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Statistics;

/// <summary>How the temporal noise of neighbouring photosites of different channels goes together; white noise has none.</summary>
/// <param name="Sides">Correlation of a photosite with the four beside, above and below it.</param>
/// <param name="Around">Correlation of a photosite with all eight around it.</param>
internal sealed record MosaicNeighbours(Estimate Sides, Estimate Around);
