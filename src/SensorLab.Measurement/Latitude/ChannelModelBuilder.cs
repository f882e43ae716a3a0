using SensorLab.Measurement.Noise;
using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Latitude;

/// <summary>Fits a channel's levels.</summary>
internal sealed class ChannelModelBuilder
{
    /// <summary>Share of saturation above which levels leave the fits: EMVA 1288 R4 fits the photon transfer up to 70 %.</summary>
    private const double FitShare = 0.7;

    /// <summary>Standard deviations by which lit rows may disagree with dark ones before only the dark ones are believed.</summary>
    private const double RowThreshold = 4;

    /// <summary>Noise in code steps below which rounding is not noise of step²/12.</summary>
    private const double FineNoiseSteps = 0.5;

    /// <summary>
    /// The same for lit levels that stand in for coarse dark ones: from here on rounding adds step²/12 to within 3·10⁻⁴ step²,
    /// wherever the mean lies between two codes.
    /// </summary>
    private const double FineLitNoiseSteps = 0.65;

    private readonly string _name;
    private readonly IReadOnlyList<ChannelLevel> _levels;
    private readonly ChannelLevel[] _darks;
    private readonly ChannelLevel[] _lit;
    private readonly ChannelLevel[] _fitted;
    private readonly double _step;
    private readonly double _rows;
    private readonly double _columns;

    private ChannelModelBuilder(string name, IReadOnlyList<LevelRecord> levels)
    {
        _name = name;
        _levels = ChannelLevel.Of(levels.Where(l => l.Role != "light"), name);
        _darks = [.. _levels.Where(l => l.IsDark)];
        _lit = [.. _levels.Where(l => !l.IsDark)];
        // A maker's curve has wide steps in bright levels, where photon noise drowns them: the dark ones' step counts.
        _step = _darks.Max(l => l.Channel.CodeStepDn);
        _rows = _levels[0].Rows;
        _columns = _levels[0].Level.PixelsPerChannel / _rows;
        double black = BlackLevelEstimator.Of(_darks).Value;
        double top = _lit.Length == 0 ? 0 : _lit.Max(l => l.Channel.MeanDn) - black;
        _fitted = [.. _levels.Where(l => l.Channel.TemporalParts is not null
            && (l.IsDark || (l.Channel.ClippedFraction <= 0 && l.Channel.MeanDn - black < FitShare * top)))];
    }

    public static ChannelModel Build(string name, IReadOnlyList<LevelRecord> levels) => new ChannelModelBuilder(name, levels).Build();

    private double Quantisation => _step * _step / 12;

    private ChannelModel Build()
    {
        RoundedNormal? coarse = FitCoarseDarks();
        Estimate black = coarse?.MeanDn ?? BlackLevelEstimator.Of(_darks);
        ChannelLevel[] transferLevels = coarse is null ? _fitted : [.. _fitted.Where(l => IsFine(l, FineLitNoiseSteps))];
        PhotonTransfer? transfer = PhotonTransferEstimator.Fit([.. transferLevels.Select(l => ToPoint(l, black.Value))]);
        if (coarse is not null && transfer is not null)
        {
            transfer = transfer.WithIntercept(new Estimate(coarse.TemporalVarianceDn2.Value + Quantisation, coarse.TemporalVarianceDn2.StandardUncertainty));
        }

        Saturation? saturation = _lit.Length == 0 ? null : SaturationEstimator.Of(_lit, black.Value, transfer);
        var temporal = new VarianceSummary(
            coarse is null ? DarkVariance(p => new Estimate(p.RowDn2, p.RowUncertaintyDn2), _columns) : default,
            coarse is null ? DarkVariance(p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2), _rows) : default);
        FixedPatternSummary pattern = FitPatterns(black.Value, coarse);
        NoiseModel noise = SharedNoise.Into(ToNoise(black, transfer, temporal, pattern.Total, saturation, _step), transferLevels, black.Value, transfer, coarse);
        return new ChannelModel
        {
            Name = _name,
            Levels = _levels,
            Noise = noise,
            Saturation = saturation,
            PhotonTransfer = transfer,
            Temporal = temporal,
            FixedPattern = pattern,
            CodeStepDn = _step,
            IsBelowStep = coarse is not null,
            FitLevels = transfer is null ? new HashSet<LevelRecord>() : transferLevels.Select(l => l.Level).ToHashSet(),
        };
    }

    /// <summary>Whether a level's noise is above some steps, judged with the rounding noise included.</summary>
    private bool IsFine(ChannelLevel level, double steps) =>
        level.Channel.TemporalParts!.PixelDn2 >= (steps * steps * _step * _step) + Quantisation;

    /// <summary>The rounded normal of the dark levels; null where their noise is above half a step, or where it is not determined.</summary>
    private RoundedNormal? FitCoarseDarks()
    {
        ChannelLevel[] darks = [.. _darks.Where(d => d.Channel is { TemporalParts: not null, Histogram: not null })];
        if (darks.Length == 0 || _step > 1 || darks.Any(d => IsFine(d, FineNoiseSteps)))
        {
            return null;
        }

        double mean = BlackLevelEstimator.Of(_darks).Value;
        PhotonTransfer? lit = PhotonTransferEstimator.Fit([.. _fitted.Where(l => !l.IsDark && IsFine(l, FineLitNoiseSteps)).Select(l => ToPoint(l, mean))]);
        Estimate? intercept = lit is null ? null : new Estimate(lit.InterceptDn2 - Quantisation, Math.Sqrt(lit.InterceptVariance));
        Estimate temporal = Estimate.WeightedMean([.. darks.Select(d => new Estimate(
            d.Channel.TemporalParts!.PixelDn2,
            Math.Max(d.Channel.TemporalParts.PixelUncertaintyDn2, 1e-6)))]);
        int frames = darks.Sum(d => d.Level.Frames);
        return RoundedNormalEstimator.Fit(Pooled([.. darks.Select(d => d.Channel.Histogram!)]), frames, _rows * _columns, temporal, intercept);
    }

    private static CodeHistogram Pooled(IReadOnlyList<CodeHistogram> histograms)
    {
        int first = histograms.Min(h => h.FirstCodeDn);
        int last = histograms.Max(h => h.FirstCodeDn + h.Counts.Count - 1);
        long[] counts = new long[last - first + 1];
        foreach (CodeHistogram histogram in histograms)
        {
            for (int i = 0; i < histogram.Counts.Count; i++)
            {
                counts[histogram.FirstCodeDn - first + i] += histogram.Counts[i];
            }
        }

        return new CodeHistogram(first, counts);
    }

    internal static PhotonTransferPoint ToPoint(ChannelLevel level, double blackDn)
    {
        VarianceParts parts = level.Channel.TemporalParts!;
        double degrees = 2 * Math.Pow(parts.PixelDn2 / parts.PixelUncertaintyDn2, 2);
        return new PhotonTransferPoint(level.Channel.MeanDn - blackDn, parts.PixelDn2, degrees, (double)level.Level.PixelsPerChannel * level.Level.Frames);
    }

    /// <summary>Row or column variance without light: of all levels where they agree, else of the dark ones alone.</summary>
    private Estimate DarkVariance(Func<VarianceParts, Estimate> part, double pixelsOfLine)
    {
        (bool IsDark, double SharedDn2, double PixelsDn2, double DegreesOfFreedom)[] levels = [.. _fitted.Select(l =>
        {
            VarianceParts parts = l.Channel.TemporalParts!;
            Estimate shared = part(parts);
            double pixels = parts.PixelDn2 / pixelsOfLine;
            return (l.IsDark, shared.Value, pixels, 2 * Math.Pow((shared.Value + pixels) / shared.StandardUncertainty, 2));
        }).Where(l => double.IsFinite(l.Item4) && l.Item4 > 0)];
        Estimate dark = LineVarianceEstimator.Of([.. levels.Where(l => l.IsDark).Select(l => (l.SharedDn2, l.PixelsDn2, l.DegreesOfFreedom))]);
        bool agree = dark.StandardUncertainty > 0 && levels.All(l =>
            Math.Abs(l.SharedDn2 - dark.Value) <= RowThreshold * double.Hypot((Math.Max(0, dark.Value) + l.PixelsDn2) * Math.Sqrt(2 / l.DegreesOfFreedom), dark.StandardUncertainty));
        return agree ? LineVarianceEstimator.Of([.. levels.Select(l => (l.SharedDn2, l.PixelsDn2, l.DegreesOfFreedom))]) : dark;
    }

    /// <summary>The fixed pattern in total and of rows and columns, with the sampling of each part.</summary>
    private FixedPatternSummary FitPatterns(double blackDn, RoundedNormal? coarse)
    {
        FixedPattern? rows = FitPattern(blackDn, p => new Estimate(p.RowDn2, p.RowUncertaintyDn2), null);
        FixedPattern? columns = FitPattern(blackDn, p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2), null);
        FixedPattern? pixels = FitPattern(blackDn, p => new Estimate(p.PixelDn2, p.PixelUncertaintyDn2), coarse);
        List<(FixedPattern Part, double Count)> parts = [];
        if (rows is not null && columns is not null && pixels is not null)
        {
            parts = [(pixels, _rows * _columns), (rows, _rows), (columns, _columns)];
        }

        return new FixedPatternSummary(
            FitPattern(blackDn, Total, coarse)?.WithSampling(parts),
            rows?.WithSampling([(rows, _rows)]),
            columns?.WithSampling([(columns, _columns)]));
    }

    internal static Estimate Total(VarianceParts parts) => new(
        parts.PixelDn2 + parts.RowDn2 + parts.ColumnDn2,
        double.Hypot(parts.PixelUncertaintyDn2, double.Hypot(parts.RowUncertaintyDn2, parts.ColumnUncertaintyDn2)));

    private FixedPattern? FitPattern(double blackDn, Func<VarianceParts, Estimate> part, RoundedNormal? coarse)
    {
        List<FixedPatternPoint> points = [];
        foreach (ChannelLevel level in _fitted.Where(l => coarse is null || IsFine(l, FineLitNoiseSteps)))
        {
            Estimate variance = part(level.Channel.FixedPatternParts!);
            if (variance.StandardUncertainty > 0)
            {
                points.Add(new FixedPatternPoint(level.Channel.MeanDn - blackDn, variance.Value, variance.StandardUncertainty));
            }
        }

        if (coarse is not null)
        {
            points.Add(new FixedPatternPoint(0, coarse.PatternVarianceDn2.Value, coarse.PatternVarianceDn2.StandardUncertainty));
        }

        return FixedPatternEstimator.Fit(points);
    }

    private static NoiseModel ToNoise(Estimate black, PhotonTransfer? transfer, VarianceSummary temporal, FixedPattern? pattern, Saturation? saturation, double stepDn)
    {
        NoiseModel model = NoiseModel.Empty
            .With(NoiseParameter.BlackDn, black)
            .With(NoiseParameter.RowColumnDn2, new Estimate(temporal.RowDn2.Value + temporal.ColumnDn2.Value, double.Hypot(temporal.RowDn2.StandardUncertainty, temporal.ColumnDn2.StandardUncertainty)))
            .With(NoiseParameter.SaturationMeanDn, saturation?.MeanDn);
        if (saturation is { AtConverter: true })
        {
            model = model.WithConverterClip(stepDn);
        }

        if (transfer is not null)
        {
            model = model
                .With(NoiseParameter.GainDnPerElectron, new Estimate(transfer.GainDnPerElectron, Math.Sqrt(transfer.GainVariance)))
                .With(NoiseParameter.InterceptDn2, new Estimate(transfer.InterceptDn2, Math.Sqrt(transfer.InterceptVariance)))
                .WithCovariance(NoiseParameter.GainDnPerElectron, NoiseParameter.InterceptDn2, transfer.Covariance);
        }

        if (pattern is not null)
        {
            model = model
                .With(NoiseParameter.DsnuSquareDn2, pattern.DsnuSquareDn2)
                .With(NoiseParameter.PrnuSquare, pattern.PrnuSquare)
                .WithCovariance(NoiseParameter.DsnuSquareDn2, NoiseParameter.PrnuSquare, pattern.Covariance);
        }

        return model;
    }
}
