namespace SensorLab.Measurement.Statistics;

/// <summary>How the blocks of one channel of a level differ.</summary>
/// <param name="LowestMeanDn">Mean of the darkest block over all frames in DN.</param>
/// <param name="HighestMeanDn">Mean of the brightest block over all frames in DN.</param>
/// <param name="VarianceDn2">Variance of the first frame's values in DN², row and column means of each block taken out: temporal noise and fixed pattern together.</param>
/// <param name="PixelsABlock">Sites of the first block; the others have nearly as many.</param>
public sealed record BlockSpread(double LowestMeanDn, double HighestMeanDn, double VarianceDn2, int PixelsABlock);
