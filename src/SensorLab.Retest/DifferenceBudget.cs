namespace SensorLab.Retest;

/// <summary>The uncertainty of a difference with all its parts: the one interval that is printed, and judged by.</summary>
/// <remarks>
/// Halves of the parts' intervals add in quadrature: limits for a sum of independent parts from the limits of each, which
/// hold where one part rests on one or two degrees of freedom and another on thousands (the method of variance estimates
/// recovery, [ZouDonner2008]). The published degrees of freedom are Welch's and Satterthwaite's (JCGM 100:2008, equation
/// G.2b): never fewer than those of the scarcest part.
/// </remarks>
internal sealed class DifferenceBudget(IReadOnlyList<DifferencePart> parts)
{
    private const double ManyDegrees = 1e4;

    public IReadOnlyList<DifferencePart> Parts { get; } = [.. parts.Where(p => p.StandardUncertainty > 0)];

    public double StandardUncertainty => Math.Sqrt(Parts.Sum(p => p.Variance));

    /// <summary>Half of the 95 % interval, for all figures at once.</summary>
    public double Half => Math.Sqrt(Parts.Sum(p => p.Half * p.Half));

    /// <summary>Effective degrees of freedom; null where there are so many that they change nothing.</summary>
    public double? DegreesOfFreedom
    {
        get
        {
            double variance = Parts.Sum(p => p.Variance);
            double fourths = Parts.Sum(p => p.Variance * p.Variance / p.DegreesOfFreedom);
            double freedom = fourths > 0 ? variance * variance / fourths : double.PositiveInfinity;
            return freedom < ManyDegrees ? freedom : null;
        }
    }

    /// <summary>The budget with one cause's parts changed.</summary>
    public DifferenceBudget With(DifferenceCause cause, Func<DifferencePart, DifferencePart> change) =>
        new([.. Parts.Select(p => p.Cause == cause ? change(p) : p)]);
}
