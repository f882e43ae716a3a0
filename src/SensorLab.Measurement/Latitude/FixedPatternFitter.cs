using SensorLab.Measurement.Noise;
using SensorLab.Measurement.Statistics;
using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Latitude;

/// <summary>Fits DSNU and PRNU of a channel in total and of its rows and columns, each with the sampling of its parts.</summary>
/// <remarks>
/// All levels see the same pixels, rows and columns. What the pattern's own sampling makes of a level's variance is
/// common to all of them: it is kept out of the weights, where it would pass for independent, and added once at the end.
/// </remarks>
internal sealed class FixedPatternFitter
{
    /// <summary>Share of a level's uncertainty that is never the pattern's own sampling.</summary>
    private const double SmallestOwnShare = 0.1;

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
        SampledPattern? pixels = Part(p => new Estimate(p.PixelDn2, p.PixelUncertaintyDn2), _pixels, _darkCodes, null);
        SampledPattern? rows = Part(p => new Estimate(p.RowDn2, p.RowUncertaintyDn2), rowCount, null, pixels?.Part.OfMeanOver(_columns));
        SampledPattern? columns = Part(p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2), columnCount, null, pixels?.Part.OfMeanOver(_rows));
        SampledPattern[] parts = pixels is null || rows is null || columns is null ? [] : [pixels, rows, columns];
        return new FixedPatternSummary(
            Independent(Total, parts, _darkCodes)?.WithSampling(parts),
            rows?.Part.WithSampling([rows]),
            columns?.Part.WithSampling([columns]));
    }

    /// <summary>The parts of a level's pattern together.</summary>
    public static Estimate Total(VarianceParts parts) => new(
        parts.PixelDn2 + parts.RowDn2 + parts.ColumnDn2,
        double.Hypot(parts.PixelUncertaintyDn2, double.Hypot(parts.RowUncertaintyDn2, parts.ColumnUncertaintyDn2)));

    /// <summary>One part; a line's mean varies by the pixels' pattern over their number, too, in all levels alike.</summary>
    private SampledPattern? Part(Func<VarianceParts, Estimate> part, double count, RoundedNormal? dark, FixedPattern? pixelsOfMean)
    {
        if (FixedPatternEstimator.Fit(Points(part, [], dark)) is not { } first)
        {
            return null;
        }

        var sampled = new SampledPattern(first, pixelsOfMean, count);
        return Independent(part, [sampled], dark) is { } second ? sampled with { Part = second } : null;
    }

    /// <summary>The fit whose uncertainties hold what is independent from level to level.</summary>
    private FixedPattern? Independent(Func<VarianceParts, Estimate> part, SampledPattern[] shared, RoundedNormal? dark) =>
        FixedPatternEstimator.Fit(Points(part, shared, dark));

    private List<FixedPatternPoint> Points(Func<VarianceParts, Estimate> part, SampledPattern[] shared, RoundedNormal? dark)
    {
        List<FixedPatternPoint> points = [];
        foreach (ChannelLevel level in _levels)
        {
            Estimate variance = part(level.Channel.FixedPatternParts!);
            double signal = _response.ResponsiveSignalOf(level.Channel.MeanDn - _blackDn);
            double sampling = shared.Sum(s => 2 * Math.Pow(Math.Max(0, s.DsnuSquareDn2 + (s.PrnuSquare * signal * signal)), 2) / s.Count);
            double own = Math.Sqrt(Math.Max(variance.Variance - sampling, SmallestOwnShare * SmallestOwnShare * variance.Variance));
            if (own > 0)
            {
                points.Add(new FixedPatternPoint(signal, variance.Value, own));
            }
        }

        if (dark is not null)
        {
            points.Add(new FixedPatternPoint(0, dark.PatternVarianceDn2.Value, dark.PatternVarianceDn2.StandardUncertainty));
        }

        return points;
    }
}
