using SensorLab.Law;

namespace SensorLab.Retest;

/// <summary>Student's factors of a comparison, each reckoned once: thousands of figures share a few. Of one thread.</summary>
internal sealed class FamilyFactors
{
    /// <summary>The probability that any of a comparison's intervals misses its true difference, to one side.</summary>
    private const double FamilyTail = 0.025;

    private readonly Dictionary<(int Family, double DegreesOfFreedom), double> _known = [];

    /// <summary>Half of an interval over its standard uncertainty: 95 % for all draws of a family at once (Bonferroni).</summary>
    /// <param name="family">How many draws.</param>
    /// <param name="degreesOfFreedom">What the uncertainty rests on; infinite where unlimited.</param>
    public double Of(int family, double degreesOfFreedom)
    {
        if (!_known.TryGetValue((family, degreesOfFreedom), out double factor))
        {
            factor = StudentTail.Quantile(FamilyTail / family, degreesOfFreedom);
            _known[(family, degreesOfFreedom)] = factor;
        }

        return factor;
    }
}
