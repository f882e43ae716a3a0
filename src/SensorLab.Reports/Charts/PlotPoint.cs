namespace SensorLab.Reports.Charts;

/// <summary>A point with its 95 % intervals, where they are known.</summary>
/// <param name="X">In the unit of the horizontal axis.</param>
/// <param name="Y">In the unit of the vertical axis.</param>
internal readonly record struct PlotPoint(double X, double Y)
{
    /// <summary>Lower end of the 95 % interval along the horizontal axis.</summary>
    public double? LowerX95 { get; init; }

    /// <summary>Upper end of the 95 % interval along the horizontal axis.</summary>
    public double? UpperX95 { get; init; }

    /// <summary>Lower end of the 95 % interval along the vertical axis.</summary>
    public double? LowerY95 { get; init; }

    /// <summary>Upper end of the 95 % interval along the vertical axis.</summary>
    public double? UpperY95 { get; init; }

    /// <summary>Whether its marker is hollow: left out of the figure, or of a special kind that the legend names.</summary>
    public bool IsHollow { get; init; }

    /// <summary>Where a bound leaves the truth open along the horizontal axis.</summary>
    public OpenSide Open { get; init; }

    /// <summary>Whether it is an upper bound along the vertical axis.</summary>
    public bool IsAtMost { get; init; }

    /// <summary>A figure on the EV axis.</summary>
    /// <param name="mark">The figure.</param>
    /// <param name="y">Its place along the vertical axis.</param>
    public static PlotPoint Of(EvMark mark, double y) => mark.IsBound
        ? new PlotPoint(mark.Ev, y) { Open = mark.Open }
        : new PlotPoint(mark.Ev, y) { LowerX95 = mark.Lower95, UpperX95 = mark.Upper95 };
}
