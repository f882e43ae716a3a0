namespace SensorLab.Reports.Swatches;

/// <summary>An even tone with the noise that the body gives it, as shares of the tone's own exposure.</summary>
/// <param name="Ev">Where it lies, in EV from middle grey.</param>
/// <param name="CriterionSnr">Total SNR as the shadow ends are reckoned by: what <c>--snr</c> takes to end at this tone.</param>
/// <param name="FreePixelNoise">Standard deviation that is free from pixel to pixel: the fixed pattern's.</param>
/// <param name="SharedPixelNoise">Standard deviation of what neighbours may share: the temporal noise's.</param>
/// <param name="RowNoise">Standard deviation of rows, temporal and fixed.</param>
/// <param name="ColumnNoise">Standard deviation of columns, temporal and fixed.</param>
internal readonly record struct SwatchTone(
    double Ev, double CriterionSnr, double FreePixelNoise, double SharedPixelNoise, double RowNoise, double ColumnNoise)
{
    /// <summary>Standard deviation of a pixel over its mean.</summary>
    public double Noise => Math.Sqrt((FreePixelNoise * FreePixelNoise) + (SharedPixelNoise * SharedPixelNoise) + (RowNoise * RowNoise) + (ColumnNoise * ColumnNoise));

    /// <summary>SNR of a pixel of the patch, rows and columns included.</summary>
    public double Snr => 1 / Noise;
}
