using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Codes;

/// <summary>Fits dark codes whose mean and variance do not tell black and noise: noise below half a step, or values cut off.</summary>
/// <remarks>
/// Black, temporal noise and pattern come from the codes' distribution, the spread between repeated frames, and the lit
/// levels' intercept.
/// </remarks>
/// <param name="Darks">Dark levels with their histograms.</param>
/// <param name="StepDn">Spacing of codes in DN.</param>
/// <param name="Pixels">Pixels of the channel.</param>
/// <param name="FloorDn">The code below which dark values are cut off; null where they are not.</param>
internal sealed record DarkCodesFitter(IReadOnlyList<ObservedLevel> Darks, double StepDn, double Pixels, int? FloorDn)
{
    /// <summary>Smallest uncertainty of a spread, where frames do not differ at all.</summary>
    private const double SmallestUncertainty = 1e-6;

    /// <summary>
    /// Codes that are fitted one by one: the work grows with their square and more. Of noise over more of them, several are taken together,
    /// which moves its variance by less than 10⁻³ as long as a step stays below <see cref="LargestStepShare"/> of it.
    /// </summary>
    private const int MostCodes = 120;

    /// <summary>Share of the temporal noise above which codes are not taken together: what spreads over the codes is then no noise.</summary>
    private const double LargestStepShare = 0.25;

    /// <summary>Fits the codes.</summary>
    /// <param name="lit">What lit levels say; null without.</param>
    /// <param name="lines">What rows and columns share, in DN; none in a first look.</param>
    /// <returns>The fit in DN, the temporal variance of rows and columns still part of its pattern; null where it is not determined, or what spreads over the codes is no noise.</returns>
    public RoundedNormal? Fit(LitIntercept? lit, IReadOnlyList<LineSample> lines)
    {
        if (Darks.Count == 0)
        {
            return null;
        }

        var pooled = CodeCounts.Pooled([.. Darks.Select(d => d.Channel.Histogram!)]);
        int together = 1 + ((CodeCounts.WithGatheredTail(CodeCounts.InSteps(pooled, StepDn)).Counts.Count - 1) / MostCodes);
        double step = together * StepDn;
        CodeHistogram all = CodeCounts.InSteps(pooled, step);
        CodeHistogram steps = CodeCounts.WithGatheredTail(all);
        double square = step * step;
        double moreRounding = (1 - (1.0 / (together * together))) / 12;
        Estimate spread = Estimate.WeightedMean([.. Darks.Select(d => new Estimate(
            (d.Channel.TemporalParts!.PixelDn2 / square) + moreRounding,
            Math.Max(d.Channel.TemporalParts.PixelUncertaintyDn2 / square, SmallestUncertainty)))]);
        if (together > 1 && LargestStepShare * LargestStepShare * spread.Value < 1)
        {
            return null;
        }

        int frames = Darks.Sum(d => d.Level.Frames);
        return RoundedNormalEstimator.Fit(steps, frames, Pixels, spread, lit?.InSteps(pooled.FirstCodeDn, step), FloorDn is not null, steps.Counts.Count < all.Counts.Count, [.. lines.Select(l => l.InSteps(step))])?
            .InDn(pooled.FirstCodeDn, step);
    }
}

/// <summary>What the pixels of a line share, of which a set holds a sample: rows or columns, of one pattern or of each frame's noise, or whole frames.</summary>
/// <param name="VarianceDn2">Its variance in DN², 0 or more.</param>
/// <param name="Lines">Lines, or frames, that it was drawn for.</param>
internal readonly record struct LineSample(double VarianceDn2, double Lines)
{
    /// <summary>The same with codes counted in steps.</summary>
    /// <param name="stepDn">Spacing of codes in DN.</param>
    public LineSample InSteps(double stepDn) => this with { VarianceDn2 = VarianceDn2 / (stepDn * stepDn) };
}

/// <summary>What lit levels say of the noise without light: a line's height at a black level, and how it moves where black is another.</summary>
/// <param name="VarianceDn2">Temporal variance at the black level, rounding taken out, in DN².</param>
/// <param name="BlackDn">The black level in DN.</param>
/// <param name="GainDnPerElectron">The line's slope: black higher by 1 DN makes the variance higher by as much.</param>
internal readonly record struct LitIntercept(Estimate VarianceDn2, double BlackDn, double GainDnPerElectron)
{
    /// <summary>The same with codes counted in steps.</summary>
    /// <param name="firstCodeDn">The code that counts as 0.</param>
    /// <param name="stepDn">Spacing of codes in DN.</param>
    public LitIntercept InSteps(double firstCodeDn, double stepDn) => new(
        new Estimate(VarianceDn2.Value / (stepDn * stepDn), VarianceDn2.StandardUncertainty / (stepDn * stepDn)),
        (BlackDn - firstCodeDn) / stepDn,
        GainDnPerElectron / stepDn);
}
