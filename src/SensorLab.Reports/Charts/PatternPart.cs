using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>A part of the fixed pattern as a standard deviation in DN.</summary>
/// <param name="VarianceDn2">The part's variance, which may come out slightly below 0.</param>
/// <param name="UncertaintyDn2">Its standard uncertainty.</param>
internal readonly record struct PatternPart(double VarianceDn2, double UncertaintyDn2)
{
    /// <summary>Whether the part stands out of its own uncertainty.</summary>
    public bool IsFound => VarianceDn2 > Figure.NormalFactor95 * UncertaintyDn2;

    /// <summary>The standard deviation, or its upper 95 % limit where it was not found.</summary>
    public double SizeDn => Math.Sqrt(IsFound ? VarianceDn2 : Math.Max(0, VarianceDn2) + (Figure.NormalFactor95 * UncertaintyDn2));

    /// <summary>The ends of the 95 % interval of the standard deviation.</summary>
    public (double Lower, double Upper) Interval95 =>
        (Math.Sqrt(Math.Max(0, VarianceDn2 - (Figure.NormalFactor95 * UncertaintyDn2))), Math.Sqrt(Math.Max(0, VarianceDn2 + (Figure.NormalFactor95 * UncertaintyDn2))));
}
