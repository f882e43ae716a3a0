namespace SensorLab.Retest;

/// <summary>The uncertainty of a difference with all its parts: the one interval that is printed, and judged by.</summary>
/// <remarks>
/// Halves of the parts' intervals add in quadrature: limits for a sum of independent parts from the limits of each, which
/// hold where one part rests on one or two degrees of freedom and another on thousands (the method of variance estimates
/// recovery, [ZouDonner2008]). The published degrees of freedom are Welch's and Satterthwaite's (JCGM 100:2008, equation
/// G.2b): never fewer than those of the scarcest part.
/// </remarks>
internal sealed class DifferenceBudget
{
    private const double ManyDegrees = 1e4;

    /// <summary>A budget.</summary>
    /// <param name="parts">The parts; those of no size are left out.</param>
    public DifferenceBudget(IEnumerable<DifferencePart> parts)
    {
        Parts = [.. parts.Where(p => p.StandardUncertainty > 0)];
        double variance = 0;
        double squares = 0;
        double fourths = 0;
        foreach (DifferencePart part in Parts)
        {
            variance += part.Variance;
            squares += part.Half * part.Half;
            fourths += part.Variance * part.Variance / part.DegreesOfFreedom;
        }

        StandardUncertainty = Math.Sqrt(variance);
        Half = Math.Sqrt(squares);
        double freedom = fourths > 0 ? variance * variance / fourths : double.PositiveInfinity;
        DegreesOfFreedom = freedom < ManyDegrees ? freedom : null;
    }

    /// <summary>Of a difference that nothing can be said of.</summary>
    public static DifferenceBudget None { get; } = new([]);

    public IReadOnlyList<DifferencePart> Parts { get; }

    public double StandardUncertainty { get; }

    /// <summary>Half of the 95 % interval, for all figures at once.</summary>
    public double Half { get; }

    /// <summary>Effective degrees of freedom; null where there are so many that they change nothing.</summary>
    public double? DegreesOfFreedom { get; }

    /// <summary>The budget with one cause's parts changed.</summary>
    public DifferenceBudget With(DifferenceCause cause, Func<DifferencePart, DifferencePart> change) =>
        new(Parts.Select(p => p.Cause == cause ? change(p) : p));
}
