using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Model;
using SensorLab.Measurement.Previews;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Figures;

/// <summary>From the level records of one ISO to its figures: all that a finished profile holds is enough.</summary>
public sealed class IsoCharacteriser
{
    private readonly int _iso;
    private readonly IReadOnlyList<LevelRecord> _levels;
    private readonly IsoOptions _options;
    private readonly CancellationToken _cancellation;

    private IsoCharacteriser(int iso, IReadOnlyList<LevelRecord> levels, IsoOptions options, CancellationToken cancellation)
    {
        _cancellation = cancellation;
        _iso = iso;
        _levels = levels;
        _options = options;
    }

    /// <summary>Computes the figures of an ISO.</summary>
    /// <param name="iso">The ISO setting.</param>
    /// <param name="levels">Its level records, at least one dark and one lit among them.</param>
    /// <param name="options">What the figures depend on beside the levels.</param>
    /// <param name="cancellation">Stops the work, between its parts.</param>
    /// <returns>The ISO's profile and what was found, or why it is refused.</returns>
    /// <exception cref="ArgumentException">There is no dark or no lit level.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static IsoCharacterisation Characterise(int iso, IReadOnlyList<LevelRecord> levels, IsoOptions options, CancellationToken cancellation = default)
    {
        if (!levels.Any(l => l.Role == RoleName.Dark) || !levels.Any(l => l.Role is RoleName.Metered or RoleName.Bracket))
        {
            throw new ArgumentException("An ISO needs a dark and a lit level.", nameof(levels));
        }

        return new IsoCharacteriser(iso, levels, options, cancellation).Run();
    }

    private IsoCharacterisation Run()
    {
        _cancellation.ThrowIfCancellationRequested();
        if (MixedLight.Of(_iso, _levels) is { } mixed)
        {
            return new IsoCharacterisation(null, [mixed]);
        }

        if (WithGrey(IsoModel.Of(_levels).WithDoubtOfUnlitNoise()) is not { } model)
        {
            return new IsoCharacterisation(null, [LatitudeFindings.GreyNotDefined(_iso)]);
        }

        _cancellation.ThrowIfCancellationRequested();
        var told = ResponseResidual.Of(model.Channels);
        model = told is null ? model : model.WithDoubtOfGain(told);
        IReadOnlyList<ChannelModel> channels = model.Channels;
        NoiseModel pooled = model.Pooled;

        // By the standard's definition of grey the bright end is what it is, whatever the response does below.
        ResponseResidual? residual = _options.Grey == GreyMethod.Metered ? told : null;
        _cancellation.ThrowIfCancellationRequested();
        ChannelProfile[] profiles = [.. channels.Select(c => ChannelProfileBuilder.Build(c, residual, _options))];
        BandsEnd? bands = BandsEnd.Of(pooled, pooled.SignalAtSnr(IsoLatitudeBuilder.DefaultSnr));
        IsoLatitude latitude = IsoLatitudeBuilder.Build(profiles, pooled, residual, _options) with { BandsEndEv = bands?.BelowGreyEv.ToFigure() };
        List<Finding> findings = [.. LatitudeFindings.Of(_iso, channels, pooled, _options)];
        if (bands is not null)
        {
            findings.Add(LatitudeFindings.ShadowBanded(_iso, bands, pooled));
        }

        _cancellation.ThrowIfCancellationRequested();
        LevelRecord[] levels = [.. _levels.Select(l => Published(l, channels, pooled))];
        (IReadOnlyList<PreviewProfile> previews, IReadOnlyList<Finding> adaptive) = PreviewEstimator.Of(_iso, levels, profiles, latitude);
        findings.AddRange(adaptive);
        int? readings = _options.Grey == GreyMethod.Metered ? MeterReadings() : null;
        var profile = new IsoProfile
        {
            Iso = _iso,
            MeterReadings = readings,
            MeterStandardUncertaintyEv = readings is { } n ? _options.MeterStepEv / Math.Sqrt(12 * n) : null,
            Channels = profiles,
            Latitude = latitude,
            SnrCurve = SnrCurveBuilder.Build(pooled),
            Levels = levels,
            Previews = previews,
        };
        return new IsoCharacterisation(FigureBudgets.Complete(profile, _options.Grey == GreyMethod.Metered ? _options.MeterStepEv : null), findings)
        {
            Model = model,
            Residual = told,
        };
    }

    private IsoModel? WithGrey(IsoModel model)
    {
        if (_options.Grey == GreyMethod.Metered)
        {
            return model.WithGrey([.. model.Channels.Select(MiddleGreyEstimator.Metered)], [.. MiddleGreyEstimator.SharedByChannels(model.Channels)]);
        }

        return MiddleGreyEstimator.Saturation(model.Channels) is { } grey ? model.WithGrey([.. grey.Select(g => (Estimate?)g)], []) : null;
    }

    /// <summary>Readings at the same settings are one reading.</summary>
    private int MeterReadings() =>
        _levels.Where(l => l.Role == RoleName.Metered).Select(l => (l.ExposureSeconds, l.ApertureFNumber, l.LightStep)).Distinct().Count();

    private static LevelRecord Published(LevelRecord level, IReadOnlyList<ChannelModel> channels, NoiseModel pooled)
    {
        double black = pooled[NoiseParameter.BlackDn];
        double signal = level.Channels.Where(c => ChannelName.IsPooled(c.Name)).Average(c => c.MeanDn) - black;
        double ev = level.Role == RoleName.Dark || signal <= 0 ? double.NaN : Math.Log2(pooled.Response.LinearOf(signal) / pooled.GreyLinearDn);
        return level with
        {
            Ev = double.IsFinite(ev) ? ev : null,
            Channels = [.. level.Channels.Select(c => c with { UsedInFit = channels.Single(m => m.Name == c.Name).FitLevels.Contains(level) })],
        };
    }
}
