using MathNet.Numerics.Distributions;
using SensorLab.Law;

namespace SensorLab.Measurement.Codes;

/// <summary>Dark values as a normal distribution that was rounded to codes, its noise too small for rounding to be noise.</summary>
/// <param name="MeanDn">Black level in DN, a fraction of a code included; its uncertainty holds the sampling of DSNU.</param>
/// <param name="TemporalVarianceDn2">Temporal variance of a pixel before rounding, in DN².</param>
/// <param name="TotalVarianceDn2">Variance over frames and pixels before rounding, in DN².</param>
/// <param name="PatternVarianceDn2">DSNU² in DN²; unbiased, hence perhaps negative.</param>
/// <param name="Covariance">How they go together.</param>
public sealed record RoundedNormal(Estimate MeanDn, Estimate TemporalVarianceDn2, Estimate TotalVarianceDn2, Estimate PatternVarianceDn2, RoundedCovariance Covariance)
{
    /// <summary>Standard deviations from the mean beyond which an edge between codes is not met.</summary>
    private const double EdgeReach = 6;

    /// <summary>Shares of the total variance between which a shared one is reckoned with: without any the limit is meant, all of it leaves no pixel's own.</summary>
    private const double SmallestShared = 1e-4;

    private const double LargestShared = 0.9;

    /// <summary>A code in DN; the others lie whole steps from it.</summary>
    public double FirstCodeDn { get; init; }

    /// <summary>Spacing of codes in DN.</summary>
    public double StepDn { get; init; } = 1;

    /// <summary>The same, from codes counted in steps to DN.</summary>
    /// <param name="firstCodeDn">The code that counts as 0.</param>
    /// <param name="stepDn">Spacing of codes in DN.</param>
    public RoundedNormal InDn(double firstCodeDn, double stepDn)
    {
        double square = stepDn * stepDn;
        Estimate Scaled(Estimate estimate) => new(square * estimate.Value, square * estimate.StandardUncertainty, estimate.DegreesOfFreedom);
        return new RoundedNormal(
            new Estimate(firstCodeDn + (stepDn * MeanDn.Value), stepDn * MeanDn.StandardUncertainty),
            Scaled(TemporalVarianceDn2),
            Scaled(TotalVarianceDn2),
            Scaled(PatternVarianceDn2),
            new RoundedCovariance(square * stepDn * Covariance.MeanAndTemporalDn3, square * stepDn * Covariance.MeanAndPatternDn3, square * square * Covariance.TemporalAndPatternDn4))
        {
            FirstCodeDn = firstCodeDn,
            StepDn = stepDn,
        };
    }

    /// <summary>
    /// What recording leaves of a variance that many pixels share: the variance of their mean code over the variance before
    /// rounding. Codes that hardly answer, or are cut off, make it small; it follows the bend of the mean code, too.
    /// </summary>
    /// <param name="sharedDn2">The shared variance before rounding in DN², part of the total one.</param>
    /// <param name="floorDn">The code at which values are cut off, with no edge below it; null where they are not.</param>
    /// <returns>Above 0; 1 where noise is fine and whole, where no noise is told, and where no code answers.</returns>
    public double ShrinkingOf(double sharedDn2, double? floorDn)
    {
        double total = TotalVarianceDn2.Value;
        if (total <= 0)
        {
            return 1;
        }

        double shared = Math.Clamp(sharedDn2 / total, SmallestShared, LargestShared) * total;
        double own = Math.Sqrt(total - shared);
        double reach = (EdgeReach * own) + (NormalNodes.Reach * Math.Sqrt(shared));
        double lowest = Math.Max(floorDn ?? double.NegativeInfinity, MeanDn.Value - reach);
        int first = (int)Math.Round((lowest - FirstCodeDn) / StepDn);
        int last = (int)Math.Round((MeanDn.Value + reach - FirstCodeDn) / StepDn);
        double mean = 0;
        double square = 0;
        foreach ((double place, double weight) in NormalNodes.Of(MeanDn.Value, shared))
        {
            double code = 0;
            for (int i = first; i <= last; i++)
            {
                code += StepDn * Normal.CDF(FirstCodeDn + (StepDn * (i + 0.5)), own, place);
            }

            mean += weight * code;
            square += weight * code * code;
        }

        double shrinking = (square - (mean * mean)) / shared;
        return shrinking > 0 ? shrinking : 1;
    }

    /// <summary>The same, its pattern known as well as another fit knows it, which leaves the sampling of lines to the pattern's own fit.</summary>
    /// <param name="first">A fit of the same codes that did not reckon with lines.</param>
    public RoundedNormal WithPatternAsIn(RoundedNormal first) => this with
    {
        PatternVarianceDn2 = PatternVarianceDn2 with { StandardUncertainty = first.PatternVarianceDn2.StandardUncertainty },
        Covariance = first.Covariance with { MeanAndTemporalDn3 = Covariance.MeanAndTemporalDn3 },
    };

    /// <summary>The same without a part of the pattern variance that was temporal after all: what the pixels of a row, of a column or of a frame share.</summary>
    /// <param name="sharedDn2">Temporal variance of what they share in DN², as it was in these frames.</param>
    public RoundedNormal WithoutShared(Estimate sharedDn2) => this with
    {
        PatternVarianceDn2 = new Estimate(PatternVarianceDn2.Value - sharedDn2.Value, double.Hypot(PatternVarianceDn2.StandardUncertainty, sharedDn2.StandardUncertainty)),
    };

    /// <summary>The same with a standard uncertainty more of temporal variance, the total one moved along as the fit has it.</summary>
    public RoundedNormal WithMoreNoise()
    {
        double more = TemporalVarianceDn2.StandardUncertainty;
        double total = more > 0 ? more + (Covariance.TemporalAndPatternDn4 / more) : 0;
        return this with
        {
            TemporalVarianceDn2 = TemporalVarianceDn2 with { Value = TemporalVarianceDn2.Value + more },
            TotalVarianceDn2 = TotalVarianceDn2 with { Value = TotalVarianceDn2.Value + total },
        };
    }
}

/// <summary>Covariances of what was fitted to dark codes.</summary>
/// <param name="MeanAndTemporalDn3">Of black level and temporal variance, in DN³.</param>
/// <param name="MeanAndPatternDn3">Of black level and pattern variance, in DN³.</param>
/// <param name="TemporalAndPatternDn4">Of temporal and pattern variance, in DN⁴.</param>
public readonly record struct RoundedCovariance(double MeanAndTemporalDn3, double MeanAndPatternDn3, double TemporalAndPatternDn4);
