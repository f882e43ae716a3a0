namespace SensorLab.AccuracyStudy;

/// <summary>A figure over channels, or over channels and bodies.</summary>
internal sealed record FigureSummary
{
    private const double Normal95 = 1.959963984540054;

    private FigureSummary(IReadOnlyList<FigureTally> tallies, bool atLimit)
    {
        AtLimit = atLimit;
        Estimates = tallies.Sum(t => t.Estimates);
        Intervals = tallies.Sum(t => t.Intervals);
        Absent = tallies.Sum(t => t.Absent);
        Coverage = (double)tallies.Sum(t => t.Covered) / Intervals;
        MeanHalfWidth = Normal95 * Weighted(tallies, t => t.MeanUncertainty);
        RelativeBias = Weighted(tallies, t => t.RelativeBias);
        BiasOverUncertainty = Weighted(tallies, t => t.BiasOverUncertainty);
        ErrorOverUncertainty = Math.Sqrt(Weighted(tallies, t => t.ErrorOverUncertainty * t.ErrorOverUncertainty));
        ErrorOverBound = tallies.All(t => t.ErrorOverBound is not null) ? Math.Sqrt(Weighted(tallies, t => t.ErrorOverBound!.Value * t.ErrorOverBound.Value)) : null;
    }

    public bool AtLimit { get; }

    public int Estimates { get; }

    public int Intervals { get; }

    public int Absent { get; }

    public double Coverage { get; }

    /// <summary>Half-width of the coverage's own 95 % interval, binomial.</summary>
    public double CoverageLimit => Normal95 * Math.Sqrt(Coverage * (1 - Coverage) / Intervals);

    /// <summary>Half of the mean 95 % interval, in the figure's unit.</summary>
    public double MeanHalfWidth { get; }

    public double RelativeBias { get; }

    public double BiasOverUncertainty { get; }

    public double ErrorOverUncertainty { get; }

    public double? ErrorOverBound { get; }

    /// <summary>Sums tallies up: those at a limit, or the others; null where there is none.</summary>
    public static FigureSummary? Of(IReadOnlyList<FigureTally> tallies, bool atLimit)
    {
        FigureTally[] own = [.. tallies.Where(t => t.AtLimit == atLimit && t.Intervals > 0)];
        return own.Length == 0 ? null : new FigureSummary(own, atLimit);
    }

    private static double Weighted(IReadOnlyList<FigureTally> tallies, Func<FigureTally, double> value)
    {
        double estimates = tallies.Sum(t => t.Estimates);
        return estimates == 0 ? double.NaN : tallies.Where(t => t.Estimates > 0).Sum(t => t.Estimates * value(t)) / estimates;
    }
}
