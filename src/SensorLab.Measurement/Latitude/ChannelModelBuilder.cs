using SensorLab.Measurement.Noise;
using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Latitude;

/// <summary>Fits a channel's levels.</summary>
internal static class ChannelModelBuilder
{
    /// <summary>Share of saturation above which levels leave the fits: EMVA 1288 R4 fits the photon transfer up to 70 %.</summary>
    private const double FitShare = 0.7;

    /// <summary>Standard deviations by which lit rows may disagree with dark ones before only the dark ones are believed.</summary>
    private const double RowThreshold = 4;

    public static ChannelModel Build(string name, IReadOnlyList<LevelRecord> levels)
    {
        IReadOnlyList<ChannelLevel> all = ChannelLevel.Of(levels.Where(l => l.Role != "light"), name);
        ChannelLevel[] darks = [.. all.Where(l => l.IsDark)];
        ChannelLevel[] lit = [.. all.Where(l => !l.IsDark)];
        Estimate black = BlackLevelEstimator.Of(darks);
        ChannelLevel[] fitted = [.. all.Where(l => l.Channel.TemporalParts is not null && InFitRange(l, lit, black.Value))];
        PhotonTransfer? transfer = PhotonTransferEstimator.Fit([.. fitted.Select(l => ToPoint(l, black.Value))]);
        Saturation? saturation = lit.Length == 0 ? null : SaturationEstimator.Of(lit, black.Value, transfer);
        var temporal = new VarianceSummary(
            DarkVariance(fitted, p => new Estimate(p.RowDn2, p.RowUncertaintyDn2)),
            DarkVariance(fitted, p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2)));
        var pattern = new FixedPatternSummary(
            FitPattern(fitted, black.Value, Total),
            FitPattern(fitted, black.Value, p => new Estimate(p.RowDn2, p.RowUncertaintyDn2)),
            FitPattern(fitted, black.Value, p => new Estimate(p.ColumnDn2, p.ColumnUncertaintyDn2)));
        return new ChannelModel
        {
            Name = name,
            Levels = all,
            Noise = ToNoise(black, transfer, temporal, pattern.Total, saturation),
            Saturation = saturation,
            PhotonTransfer = transfer,
            Temporal = temporal,
            FixedPattern = pattern,
            CodeStepDn = all.Max(l => l.Channel.CodeStepDn),
            FitLevels = transfer is null ? new HashSet<LevelRecord>() : fitted.Select(l => l.Level).ToHashSet(),
        };
    }

    private static bool InFitRange(ChannelLevel level, ChannelLevel[] lit, double blackDn)
    {
        if (level.IsDark)
        {
            return true;
        }

        double top = lit.Max(l => l.Channel.MeanDn) - blackDn;
        return level.Channel.ClippedFraction <= 0 && level.Channel.MeanDn - blackDn < FitShare * top;
    }

    private static PhotonTransferPoint ToPoint(ChannelLevel level, double blackDn)
    {
        VarianceParts parts = level.Channel.TemporalParts!;
        double degrees = 2 * Math.Pow(parts.PixelDn2 / parts.PixelUncertaintyDn2, 2);
        return new PhotonTransferPoint(level.Channel.MeanDn - blackDn, parts.PixelDn2, degrees, (double)level.Level.PixelsPerChannel * level.Level.Frames);
    }

    /// <summary>Row or column variance without light: of all levels where they agree, else of the dark ones alone.</summary>
    private static Estimate DarkVariance(ChannelLevel[] fitted, Func<VarianceParts, Estimate> part)
    {
        Estimate[] dark = [.. fitted.Where(l => l.IsDark).Select(l => part(l.Channel.TemporalParts!)).Where(e => e.StandardUncertainty > 0)];
        if (dark.Length == 0)
        {
            return default;
        }

        Estimate mean = Estimate.WeightedMean(dark);
        Estimate[] lit = [.. fitted.Where(l => !l.IsDark).Select(l => part(l.Channel.TemporalParts!))];
        bool agree = lit.All(e => Math.Abs(e.Value - mean.Value) <= RowThreshold * double.Hypot(e.StandardUncertainty, mean.StandardUncertainty));
        return agree ? Estimate.WeightedMean([.. dark, .. lit]) : mean;
    }

    private static Estimate Total(VarianceParts parts) => new(
        parts.PixelDn2 + parts.RowDn2 + parts.ColumnDn2,
        double.Hypot(parts.PixelUncertaintyDn2, double.Hypot(parts.RowUncertaintyDn2, parts.ColumnUncertaintyDn2)));

    private static FixedPattern? FitPattern(ChannelLevel[] fitted, double blackDn, Func<VarianceParts, Estimate> part)
    {
        List<FixedPatternPoint> points = [];
        foreach (ChannelLevel level in fitted)
        {
            Estimate variance = part(level.Channel.FixedPatternParts!);
            points.Add(new FixedPatternPoint(level.Channel.MeanDn - blackDn, variance.Value, variance.StandardUncertainty));
        }

        return points.Count == 0 ? null : FixedPatternEstimator.Fit(points, fitted[0].Level.PixelsPerChannel);
    }

    private static NoiseModel ToNoise(Estimate black, PhotonTransfer? transfer, VarianceSummary temporal, FixedPattern? pattern, Saturation? saturation)
    {
        NoiseModel model = NoiseModel.Empty
            .With(NoiseParameter.BlackDn, black)
            .With(NoiseParameter.RowColumnDn2, new Estimate(temporal.RowDn2.Value + temporal.ColumnDn2.Value, double.Hypot(temporal.RowDn2.StandardUncertainty, temporal.ColumnDn2.StandardUncertainty)))
            .With(NoiseParameter.SaturationMeanDn, saturation?.MeanDn);
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
