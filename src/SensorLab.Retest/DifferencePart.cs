namespace SensorLab.Retest;

/// <summary>One cause's part of a difference's uncertainty.</summary>
internal readonly record struct DifferencePart
{
    private readonly int _family;
    private readonly FamilyFactors _factors;

    /// <summary>A part.</summary>
    /// <param name="cause">The cause.</param>
    /// <param name="standardUncertainty">Its standard uncertainty, in the margin's unit.</param>
    /// <param name="degreesOfFreedom">What that rests on, 1 or more; infinite where unlimited.</param>
    /// <param name="family">How many independent draws of this cause the comparison looks at: what shares one draw counts once.</param>
    /// <param name="limit">The largest the cause can make the difference, infinite where nothing limits it.</param>
    /// <param name="factors">Student's factors that were reckoned before; null for none.</param>
    public DifferencePart(DifferenceCause cause, double standardUncertainty, double degreesOfFreedom, int family, double limit = double.PositiveInfinity, FamilyFactors? factors = null)
    {
        (Cause, StandardUncertainty, DegreesOfFreedom, _family, Limit) = (cause, standardUncertainty, degreesOfFreedom, family, limit);
        _factors = factors ?? new FamilyFactors();
        Factor = standardUncertainty == 0 ? 0 : _factors.Of(family, degreesOfFreedom);
    }

    public DifferenceCause Cause { get; }

    public double StandardUncertainty { get; private init; }

    public double DegreesOfFreedom { get; }

    /// <summary>Half of the interval over the standard uncertainty: 95 % for all draws of the cause at once (Bonferroni), Student's where it rests on little.</summary>
    public double Factor { get; }

    public double Limit { get; private init; }

    /// <summary>Variance of the part.</summary>
    public double Variance => StandardUncertainty * StandardUncertainty;

    /// <summary>Half of the part's interval.</summary>
    public double Half => Math.Min(Limit, Factor * StandardUncertainty);

    /// <summary>The part as it would be if its standard uncertainty were known outright.</summary>
    public DifferencePart Known => new(Cause, StandardUncertainty, double.PositiveInfinity, _family, Limit, _factors);

    /// <summary>The part in another unit.</summary>
    /// <param name="factor">Units a unit.</param>
    public DifferencePart Scaled(double factor) => this with { StandardUncertainty = factor * StandardUncertainty, Limit = factor * Limit };

    /// <summary>The part with a share of its variance.</summary>
    /// <param name="share">From 0 to 1.</param>
    public DifferencePart Lessened(double share) => this with { StandardUncertainty = Math.Sqrt(share) * StandardUncertainty };
}
