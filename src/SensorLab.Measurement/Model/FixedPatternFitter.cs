using SensorLab.Law;
using SensorLab.Measurement.Codes;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Pixels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>Fits DSNU and PRNU of a channel in total and of its rows and columns, each with the sampling of its parts.</summary>
/// <remarks>
/// All levels see the same pixels, rows and columns. What the pattern's own sampling makes of a level's variance is
/// common to all of them: it is kept out of the weights, where it would pass for independent, and added once at the end.
/// A variance's uncertainty grows with the variance: weights come from the fit and not from the levels, or those that came
/// out low would count for most.
/// </remarks>
internal sealed class FixedPatternFitter
{
    /// <summary>Share of a level's uncertainty that is never the pattern's own sampling.</summary>
    private const double SmallestOwnShare = 0.1;

    /// <summary>Standard uncertainties from the fit beyond which a level holds more than pattern, and keeps the uncertainty it has.</summary>
    private const double Outlying = 4;

    /// <summary>By what factor the fit may change a level's uncertainty: of few lines a first fit is uncertain itself.</summary>
    private const double LargestChange = 2;

    /// <summary>Lines at both ends together that have no second difference.</summary>
    private const int EndLines = 2;

    private readonly IReadOnlyList<ChannelLevel> _levels;
    private readonly double _blackDn;
    private readonly ResponseCurve _response;
    private readonly RoundedNormal? _darkCodes;
    private readonly double _pixels;
    private readonly double _rows;
    private readonly double _columns;

    /// <summary>Takes what the fits share.</summary>
    /// <param name="levels">Dark and lit levels that serve the fits.</param>
    /// <param name="blackDn">Black level in DN.</param>
    /// <param name="response">How recorded signal follows exposure.</param>
    /// <param name="darkCodes">What stands in for dark levels where they are coarse or cut off; null elsewhere.</param>
    public FixedPatternFitter(IReadOnlyList<ChannelLevel> levels, double blackDn, ResponseCurve response, RoundedNormal? darkCodes)
    {
        _levels = levels;
        _blackDn = blackDn;
        _response = response;
        _darkCodes = darkCodes;
        _pixels = levels.Count == 0 ? 1 : levels[0].Level.PixelsPerChannel;
        _rows = levels.Count == 0 ? 1 : levels[0].Rows;
        _columns = _pixels / _rows;
    }

    /// <summary>Fits the pattern in total and its row and column parts.</summary>
    public FixedPatternSummary Fit()
    {
        // Row and column parts come from second differences, of which several weigh as much as one line.
        double rowCount = (_rows - EndLines) / ProfileVariance.DifferencesADegree;
        double columnCount = (_columns - EndLines) / ProfileVariance.DifferencesADegree;
        SampledPattern? pixels = Part(PixelPart, _pixels, _darkCodes, null);
        SampledPattern? rows = Part(RowPart, rowCount, null, pixels?.Part.OfMeanOver(_columns));
        SampledPattern? columns = Part(ColumnPart, columnCount, null, pixels?.Part.OfMeanOver(_rows));
        SampledPattern[] parts = pixels is null || rows is null || columns is null ? [] : [pixels, InCodes(rows, _rows), InCodes(columns, _columns)];
        return new FixedPatternSummary(
            FixedPatternEstimator.Fit(Points([PixelPart, RowPart, ColumnPart], parts, _darkCodes))?.WithSampling(parts),
            rows?.Part.WithSampling([rows]),
            columns?.Part.WithSampling([columns]));
    }

    /// <summary>The parts of a level's pattern together.</summary>
    public static Estimate Total(VarianceParts parts) => Sum([PixelPart(parts), RowPart(parts), ColumnPart(parts)]);

    private static Estimate PixelPart(VarianceParts parts) => new(parts.PixelDn2, parts.PixelUncertaintyDn2);

    private static Estimate RowPart(VarianceParts parts) => new(parts.RowDn2, parts.RowUncertaintyDn2);

    private static Estimate ColumnPart(VarianceParts parts) => new(parts.ColumnDn2, parts.ColumnUncertaintyDn2);

    private static Estimate Sum(IReadOnlyList<Estimate> parts) => new(parts.Sum(p => p.Value), Math.Sqrt(parts.Sum(p => p.Variance)));

    /// <summary>One part; a line's mean varies by the pixels' pattern over their number, too, in all levels alike.</summary>
    private SampledPattern? Part(Func<VarianceParts, Estimate> part, double count, RoundedNormal? dark, FixedPattern? pixelsOfMean)
    {
        if (FixedPatternEstimator.Fit(Points([part], [], dark)) is not { } first)
        {
            return null;
        }

        var sampled = new SampledPattern(first, pixelsOfMean, count);
        return FixedPatternEstimator.Fit(Points([part], [sampled], dark)) is { } second ? sampled with { Part = second } : null;
    }

    /// <summary>What the levels say of the parts' sum.</summary>
    /// <param name="parts">The parts.</param>
    /// <param name="known">A first fit of each; without, uncertainties are the levels' own.</param>
    /// <param name="dark">What stands in for dark levels.</param>
    private List<FixedPatternPoint> Points(Func<VarianceParts, Estimate>[] parts, SampledPattern[] known, RoundedNormal? dark)
    {
        List<FixedPatternPoint> points = [];
        foreach (ChannelLevel level in _levels)
        {
            double signal = _response.ResponsiveSignalOf(level.Channel.MeanDn - _blackDn);
            IEnumerable<Estimate> measured = parts.Select(part => part(level.Channel.FixedPatternParts!));
            Estimate sum = Sum([.. known.Length == 0 ? measured : measured.Select((m, i) => Independent(m, signal, known[i]))]);
            if (sum.StandardUncertainty > 0)
            {
                points.Add(new FixedPatternPoint(signal, sum.Value, sum.StandardUncertainty));
            }
        }

        if (dark is not null)
        {
            points.Add(new FixedPatternPoint(0, dark.PatternVarianceDn2.Value, WithoutSampling(dark.PatternVarianceDn2.StandardUncertainty, known.Sum(k => Sampling(k.DsnuSquareDn2, k.DarkCount)))));
        }

        return points;
    }

    /// <summary>A part with the uncertainty that the fit expects of it, less what all levels share.</summary>
    private static Estimate Independent(Estimate measured, double signalDn, SampledPattern known)
    {
        double square = signalDn * signalDn;
        double above = known.Part.DsnuSquareDn2.Value + (known.Part.PrnuSquare.Value * square) - measured.Value;
        double uncertainty = measured.StandardUncertainty;
        if (Math.Abs(above) <= Outlying * uncertainty)
        {
            uncertainty = Math.Clamp(uncertainty + (above * Math.Sqrt(2 / known.Count)), uncertainty / LargestChange, uncertainty * LargestChange);
        }

        return new Estimate(measured.Value, WithoutSampling(uncertainty, Sampling(known.DsnuSquareDn2 + (known.PrnuSquare * square), known.Count)));
    }

    /// <summary>Codes hold every line's offset and not differences of lines.</summary>
    private SampledPattern InCodes(SampledPattern lines, double count) => _darkCodes is null ? lines : lines with { DarkCount = count };

    /// <summary>Variance in DN⁴ that its sampling brings to a pattern's variance.</summary>
    private static double Sampling(double varianceDn2, double count) => 2 * Math.Pow(Math.Max(0, varianceDn2), 2) / count;

    private static double WithoutSampling(double uncertainty, double samplingDn4) =>
        Math.Sqrt(Math.Max((uncertainty * uncertainty) - samplingDn4, SmallestOwnShare * SmallestOwnShare * uncertainty * uncertainty));
}
