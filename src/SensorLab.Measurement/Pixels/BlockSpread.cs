namespace SensorLab.Measurement.Pixels;

/// <summary>How the blocks of one channel of a level differ.</summary>
/// <param name="MeansDn">Means of the blocks over all frames in DN, rising; of many an even choice with the darkest and the brightest.</param>
/// <param name="VarianceDn2">Variance of the first frame's values in DN², row and column means of each block taken out: temporal noise and fixed pattern together.</param>
/// <param name="PixelsABlock">Sites of the first block; the others have nearly as many.</param>
public sealed record BlockSpread(IReadOnlyList<double> MeansDn, double VarianceDn2, int PixelsABlock)
{
    /// <summary>Mean of the darkest block in DN.</summary>
    public double LowestMeanDn => MeansDn[0];

    /// <summary>Mean of the brightest block in DN.</summary>
    public double HighestMeanDn => MeansDn[^1];
}
