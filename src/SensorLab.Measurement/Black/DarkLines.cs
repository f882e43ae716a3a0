using SensorLab.Law;
using SensorLab.Measurement.Codes;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Black;

/// <summary>What the pixels of rows and columns share without light.</summary>
/// <remarks>
/// Where dark values are coarse or cut off, a line that moves takes the mean of its codes along by a share only: its
/// variance there is less by <see cref="RoundedNormal.ShrinkingOf"/>.
/// </remarks>
/// <param name="Lit">Lit levels whose noise is fine.</param>
/// <param name="Darks">Dark levels of two frames or more.</param>
/// <param name="Codes">The distribution of the dark codes where it was fitted; null elsewhere.</param>
/// <param name="FloorDn">The code at which dark values are cut off; null where they are not.</param>
internal sealed record DarkLines(IReadOnlyList<ObservedLevel> Lit, IReadOnlyList<ObservedLevel> Darks, RoundedNormal? Codes, double? FloorDn)
{
    /// <summary>Share of a variance that codes must at least leave: below it, lines do not show in them.</summary>
    private const double SmallestShrinking = 0.01;

    /// <summary>Rounds in which a variance and what codes leave of it settle.</summary>
    private const int Rounds = 3;

    /// <summary>Temporal variance of rows and columns.</summary>
    public DarkLineVariances Temporal() => new(
        Variance(p => new Estimate(p.RowDn2, p.RowUncertaintyDn2), l => l.PixelsOfRow),
        Variance(p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2), l => l.PixelsOfColumn));

    /// <summary>By how much the variance of rows, and of columns, may be off in DN² where dark levels contradict each other, frames of one of them having been disturbed: it may lie anywhere between them.</summary>
    public (double RowDn2, double ColumnDn2) Doubts() => (
        Doubt(p => new Estimate(p.RowDn2, p.RowUncertaintyDn2)),
        Doubt(p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2)));

    /// <summary>The samples that the dark codes hold of rows and columns, of their noise and of their pattern, and of frames.</summary>
    /// <param name="temporal">Temporal variance of rows and columns.</param>
    /// <param name="driftDn2">Variance of black from frame to frame in DN².</param>
    public IReadOnlyList<LineSample> Samples(DarkLineVariances temporal, double driftDn2)
    {
        if (Darks.Count == 0)
        {
            return [];
        }

        double frames = Darks.Sum(d => d.Level.Frames);
        double rows = Darks[0].Rows;
        double columns = Darks[0].Columns;
        return
        [
            new LineSample(Math.Max(0, temporal.RowDn2.Value), rows * frames),
            new LineSample(Math.Max(0, temporal.ColumnDn2.Value), columns * frames),
            new LineSample(Pattern(p => p.RowDn2), rows),
            new LineSample(Pattern(p => p.ColumnDn2), columns),
            new LineSample(driftDn2, frames),
        ];
    }

    private double Doubt(Func<VarianceParts, Estimate> part)
    {
        Estimate[] levels = [.. Darks.Select(d => part(d.Channel.TemporalParts!))];
        if (levels.Length == 0)
        {
            return 0;
        }

        (Estimate least, Estimate most) = (levels.MinBy(l => l.Value), levels.MaxBy(l => l.Value));
        double range = most.Value - least.Value;
        return range > Significance.LinesDisagree * double.Hypot(least.StandardUncertainty, most.StandardUncertainty) ? range / Math.Sqrt(3) : 0;
    }

    private double Shrinking(double sharedDn2) => Codes?.ShrinkingOf(sharedDn2, FloorDn) ?? 1;

    private double Pattern(Func<VarianceParts, double> part)
    {
        double recorded = Math.Max(0, Darks.Average(d => part(d.Channel.FixedPatternParts!)));
        double shared = recorded;
        for (int i = 0; i < Rounds; i++)
        {
            double shrinking = Shrinking(shared);
            shared = shrinking > SmallestShrinking ? recorded / shrinking : 0;
        }

        return shared;
    }

    private Estimate Variance(Func<VarianceParts, Estimate> part, Func<ObservedLevel, double> pixelsOfLine)
    {
        Estimate shared = VarianceWith(Shrinking(0), part, pixelsOfLine);
        for (int i = 0; i < Rounds && Codes is not null; i++)
        {
            shared = VarianceWith(Shrinking(shared.Value), part, pixelsOfLine);
        }

        return shared;
    }

    /// <summary>Of all levels where they agree, else of the dark ones alone.</summary>
    private Estimate VarianceWith(double darkShrinking, Func<VarianceParts, Estimate> part, Func<ObservedLevel, double> pixelsOfLine)
    {
        IEnumerable<ObservedLevel> darks = Darks.Where(_ => darkShrinking > SmallestShrinking);
        (bool IsDark, double SharedDn2, double PixelsDn2, double DegreesOfFreedom)[] levels = [.. Lit.Concat(darks).Select(l =>
        {
            VarianceParts parts = l.Channel.TemporalParts!;
            Estimate shared = part(parts);
            double pixels = parts.PixelDn2 / pixelsOfLine(l);
            double shrinking = l.IsDark ? darkShrinking : 1;
            return (l.IsDark, shared.Value / shrinking, pixels / shrinking, 2 * Math.Pow((shared.Value + pixels) / shared.StandardUncertainty, 2));
        }).Where(l => double.IsFinite(l.Item4) && l.Item4 > 0)];
        bool isLitAlone = !levels.Any(l => l.IsDark);
        Estimate dark = LineVarianceEstimator.Of([.. levels.Where(l => l.IsDark || isLitAlone).Select(l => (l.SharedDn2, l.PixelsDn2, l.DegreesOfFreedom))]);
        bool agree = dark.StandardUncertainty > 0 && levels.All(l =>
            Math.Abs(l.SharedDn2 - dark.Value) <= Significance.LinesDisagree * double.Hypot((Math.Max(0, dark.Value) + l.PixelsDn2) * Math.Sqrt(2 / l.DegreesOfFreedom), dark.StandardUncertainty));
        return agree ? LineVarianceEstimator.Of([.. levels.Select(l => (l.SharedDn2, l.PixelsDn2, l.DegreesOfFreedom))]) : dark;
    }
}

/// <summary>Temporal row and column variance without light, in DN².</summary>
internal sealed record DarkLineVariances(Estimate RowDn2, Estimate ColumnDn2)
{
    /// <summary>Both together.</summary>
    public Estimate Sum
    {
        get
        {
            double variance = RowDn2.Variance + ColumnDn2.Variance;
            double fourths = (RowDn2.Variance * RowDn2.Variance / RowDn2.DegreesOfFreedom) + (ColumnDn2.Variance * ColumnDn2.Variance / ColumnDn2.DegreesOfFreedom);
            return new Estimate(RowDn2.Value + ColumnDn2.Value, Math.Sqrt(variance), fourths > 0 ? variance * variance / fourths : double.PositiveInfinity);
        }
    }

    /// <summary>Variance in DN⁴ of their sum as a statement on these very lines: without what chance made of the lines themselves.</summary>
    public double MeasuredDn4 => Measured(RowDn2) + Measured(ColumnDn2);

    private static double Measured(Estimate shared) => Math.Max(0, shared.Variance - (2 * shared.Value * shared.Value / shared.DegreesOfFreedom));
}
