namespace SensorLab.Law;

/// <summary>The noise that rounding to codes adds where the noise before it is above half a step.</summary>
public static class RoundingNoise
{
    /// <summary>Steps nearer to a whole number of DN than this were not rounded a second time.</summary>
    private const double WholeShare = 0.01;

    /// <summary>Variance of rounding: step²/12, and 1/12 more where a multiplied code falls between two whole DN.</summary>
    /// <param name="stepDn">Mean spacing of codes in DN, 1 or more; a fraction where the maker multiplied codes by one.</param>
    /// <returns>The variance in DN².</returns>
    /// <remarks>EMVA 1288 R4 Linear, quantisation noise, for the converter's own step and for the rounding after a digital push.</remarks>
    public static double VarianceDn2(double stepDn) =>
        ((stepDn * stepDn) + (Math.Abs(stepDn - Math.Round(stepDn)) > WholeShare ? 1 : 0)) / 12;
}
