using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels.Variances;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>One part of a channel's fixed pattern: of pixels, rows or columns.</summary>
/// <remarks>
/// All levels see the same pixels, rows and columns. What the pattern's own sampling makes of a level's variance is
/// common to all of them: it is kept out of the weights, where it would pass for independent, and added once at the end.
/// A variance's uncertainty grows with the variance: weights come from the model and not from the levels, or those that came
/// out low would count for most. What blocks and second differences cost in degrees of freedom is taken from all levels together.
/// </remarks>
internal sealed record PatternPart
{
    /// <summary>Share of a level's uncertainty that is never the pattern's own sampling.</summary>
    private const double SmallestOwnShare = 0.1;

    /// <summary>Lines at both ends together that have no second difference.</summary>
    private const int EndLines = 2;

    /// <summary>Its row of the fit.</summary>
    public IsoRowKind Kind { get; init; }

    /// <summary>DSNU² of the part.</summary>
    public NoiseParameter Dsnu { get; init; }

    /// <summary>PRNU² of the part.</summary>
    public NoiseParameter Prnu { get; init; }

    /// <summary>The part of a level.</summary>
    public required Func<VarianceParts, Estimate> Measured { get; init; }

    /// <summary>How many independent pixels or lines it is seen on.</summary>
    public required double Count { get; init; }

    /// <summary>The same for DSNU: codes hold every line's offset and not differences of lines.</summary>
    public required double DarkCount { get; init; }

    /// <summary>Temporal variance of a line itself in DN²; 0 for pixels.</summary>
    public double LineDn2 { get; init; }

    /// <summary>Pixels of a line, by whose number their own pattern goes into the line's mean; infinite for the pixels themselves.</summary>
    public double PixelsOfMean { get; init; } = double.PositiveInfinity;

    /// <summary>Whether it is of rows or columns.</summary>
    public bool IsOfLines => !double.IsInfinity(PixelsOfMean);

    /// <summary>The parts of a channel.</summary>
    /// <param name="channel">The channel.</param>
    public static IReadOnlyList<PatternPart> Of(ChannelObservations channel)
    {
        ObservedLevel any = channel.Levels[0];
        double pixels = any.Pixels;
        return
        [
            new()
            {
                Kind = IsoRowKind.PixelPattern,
                Dsnu = NoiseParameter.PixelDsnuSquareDn2,
                Prnu = NoiseParameter.PixelPrnuSquare,
                Measured = p => new Estimate(p.PixelDn2, p.PixelUncertaintyDn2),
                Count = pixels,
                DarkCount = pixels,
            },
            OfLines(any.Rows, any.PixelsOfRow, channel.Codes is not null) with
            {
                Kind = IsoRowKind.RowPattern,
                Dsnu = NoiseParameter.RowDsnuSquareDn2,
                Prnu = NoiseParameter.RowPrnuSquare,
                Measured = p => new Estimate(p.RowDn2, p.RowUncertaintyDn2),
                LineDn2 = Math.Max(0, channel.Lines.RowDn2.Value),
            },
            OfLines(any.Columns, any.PixelsOfColumn, channel.Codes is not null) with
            {
                Kind = IsoRowKind.ColumnPattern,
                Dsnu = NoiseParameter.ColumnDsnuSquareDn2,
                Prnu = NoiseParameter.ColumnPrnuSquare,
                Measured = p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2),
                LineDn2 = Math.Max(0, channel.Lines.ColumnDn2.Value),
            },
        ];
    }

    /// <summary>The squares that vary from draw to draw of pixels or lines, with the number of draws.</summary>
    /// <param name="parameter">The parameters so far.</param>
    public IEnumerable<(NoiseParameter Parameter, double Square, double Count)> Sampled(Func<NoiseParameter, double> parameter)
    {
        yield return (Dsnu, Math.Max(0, DsnuOfDraw(parameter)), DarkCount);
        yield return (Prnu, Math.Max(0, PrnuOfDraw(parameter)), Count);
    }

    /// <summary>Variance of a level's part in DN⁴ as the model has it: with what all levels share, and without.</summary>
    /// <param name="level">The level.</param>
    /// <param name="signalDn">Its responsive signal in DN.</param>
    /// <param name="temporalDn2">Temporal variance of a pixel there in DN².</param>
    /// <param name="parameter">The parameters so far.</param>
    /// <remarks>
    /// The variance of n frames' mean has a pattern's d and a temporal t/n, each seen on the part's count; t is taken off as
    /// the frames' differences tell it: 2(d + t/n)²/count + 2t²/((n − 1)·n²·count), of which 2d²/count is the pattern's own sampling.
    /// </remarks>
    public (double Whole, double Own) VarianceDn4(ObservedLevel level, double signalDn, double temporalDn2, Func<NoiseParameter, double> parameter)
    {
        double frames = level.Level.Frames;
        double drawn = Math.Max(0, DsnuOfDraw(parameter) + (PrnuOfDraw(parameter) * signalDn * signalDn));
        double temporal = IsOfLines ? LineDn2 + (temporalDn2 / PixelsOfMean) : temporalDn2;
        double spread = drawn + (temporal / frames);
        double whole = ((2 * spread * spread) + (2 * temporal * temporal / ((frames - 1) * frames * frames))) / Count;
        return (whole, whole - (2 * drawn * drawn / Count));
    }

    /// <summary>Whether a level holds more, or less, than pattern.</summary>
    /// <param name="measured">The part as measured.</param>
    /// <param name="signalDn">The level's responsive signal in DN.</param>
    /// <param name="parameter">The parameters so far.</param>
    public bool IsOutlying(Estimate measured, double signalDn, Func<NoiseParameter, double> parameter) =>
        Math.Abs(parameter(Dsnu) + (parameter(Prnu) * signalDn * signalDn) - measured.Value) > Significance.MoreThanPattern * measured.StandardUncertainty;

    /// <summary>A variance less the sampling's, of which a hundredth is always the level's own.</summary>
    /// <param name="wholeDn4">The variance.</param>
    /// <param name="samplingDn4">What sampling has of it.</param>
    public static double Own(double wholeDn4, double samplingDn4) => Math.Max(wholeDn4 - samplingDn4, SmallestOwnShare * SmallestOwnShare * wholeDn4);

    /// <summary>What rows and columns have alike: their parts come from second differences, of which several weigh as much as one line.</summary>
    private static PatternPart OfLines(double lines, double pixelsOfLine, bool withCodes)
    {
        double count = (lines - EndLines) / LineMeansVariance.DifferencesADegree;
        return new PatternPart { Measured = _ => default, Count = count, DarkCount = withCodes ? lines : count, PixelsOfMean = pixelsOfLine };
    }

    private double DsnuOfDraw(Func<NoiseParameter, double> parameter) => parameter(Dsnu) + (parameter(NoiseParameter.PixelDsnuSquareDn2) / PixelsOfMean);

    private double PrnuOfDraw(Func<NoiseParameter, double> parameter) => parameter(Prnu) + (parameter(NoiseParameter.PixelPrnuSquare) / PixelsOfMean);
}
