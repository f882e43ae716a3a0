namespace SensorLab.Profiles;

/// <summary>How the temporal noise of neighbouring pixels of one channel goes together; white noise has none.</summary>
/// <param name="Horizontal">Correlation of neighbours in a row, from −1 to 1.</param>
/// <param name="Vertical">Correlation of neighbours in a column, from −1 to 1.</param>
/// <param name="StandardUncertainty">Standard uncertainty of either.</param>
public sealed record NeighbourCorrelation(double Horizontal, double Vertical, double StandardUncertainty);
