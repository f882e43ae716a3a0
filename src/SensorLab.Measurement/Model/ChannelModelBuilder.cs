using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Codes;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>Fits a channel's levels.</summary>
internal sealed class ChannelModelBuilder
{
    /// <summary>Share of saturation above which levels leave the fits: EMVA 1288 R4 fits the photon transfer up to 70 %.</summary>
    private const double FitShare = 0.7;

    /// <summary>Noise in code steps from which on rounding adds step²/12 to within 3·10⁻⁴ step², wherever the mean lies between two codes.</summary>
    private const double FineNoiseSteps = 0.65;

    /// <summary>Noise in code steps below which a finding says that rounding is not noise of step²/12.</summary>
    private const double CoarseNoiseSteps = 0.5;

    /// <summary>
    /// Noise above a floor from which a lit level's mean and variance are whole: of a normal distribution cut off there,
    /// 3·10⁻⁵ is missing.
    /// </summary>
    private const double WholeDeviations = 4;

    private readonly string _name;
    private readonly IReadOnlyList<ChannelLevel> _levels;
    private readonly Estimate? _bend;
    private readonly ChannelLevel[] _darks;
    private readonly ChannelLevel[] _lit;
    private readonly ChannelLevel[] _fitted;
    private readonly double _step;
    private readonly BlackDrift _drift;
    private readonly int? _floor;

    private ChannelModelBuilder(string name, IReadOnlyList<LevelRecord> levels, Estimate? bend)
    {
        _name = name;
        _bend = bend;
        _drift = BlackDrift.Of([.. levels.Where(l => l.Role == "dark")]);
        _levels = DarkSignal.Into(ChannelLevel.Of(levels.Where(l => l.Role != "light"), name), _drift);
        _darks = [.. _levels.Where(l => l.IsDark)];
        _lit = [.. _levels.Where(l => !l.IsDark)];
        // A maker's curve has wide steps in bright levels, where photon noise drowns them: the dark ones' step counts.
        _step = _darks.Max(l => l.Channel.CodeStepDn);
        _floor = _darks.Select(d => d.Channel.Histogram is { } codes ? DarkFloor.Of(codes) : null).Min();
        double black = BlackLevelEstimator.Of(_darks).Value;
        double top = _lit.Length == 0 ? 0 : _lit.Max(l => l.Channel.MeanDn) - black;
        _fitted = [.. _levels.Where(l => l.Channel.TemporalParts is not null && IsAboveFloor(l)
            && (l.IsDark || (l.Channel.ClippedFraction <= 0 && l.Channel.MeanDn - black < FitShare * top)))];
    }

    /// <summary>Fits every channel of an ISO; where its response bends, with the bend taken out; where noise may grow faster than photons make it, with the doubt in the line's uncertainty.</summary>
    /// <param name="levels">Level records of one ISO.</param>
    /// <returns>One model a channel.</returns>
    public static IReadOnlyList<ChannelModel> BuildAll(IReadOnlyList<LevelRecord> levels)
    {
        string[] names = [.. levels[0].Channels.Select(c => c.Name)];
        ChannelModel[] straight = [.. names.Select(n => new ChannelModelBuilder(n, levels, null).Build())];
        ChannelModel[] models = ResponseEstimator.Of(straight) is { } bend ? [.. names.Select(n => new ChannelModelBuilder(n, levels, bend).Build())] : straight;
        return ExcessNoise.Of(models, _ => 0) is { } excess ? [.. models.Select(excess.Into)] : models;
    }

    private double Quantisation => RoundingNoise.VarianceDn2(_step);

    private ResponseCurve Response => new(_bend?.Value ?? 0);

    private ChannelModel Build()
    {
        RoundedNormal? dark = FitDarkCodes([]);
        bool isCoarse = dark is not null && IsCoarse;
        ChannelLevel[] fineLit = [.. _fitted.Where(l => !l.IsDark && (!isCoarse || IsFine(l, FineNoiseSteps)))];
        ChannelLevel[] darks = [.. dark is null ? _darks.Where(d => d.Channel.TemporalParts is not null) : DarksWithCodes];
        DarkLines lines = new(fineLit, darks, dark, _floor);
        VarianceSummary temporal = lines.Temporal();
        Estimate black = BlackLevelEstimator.Of(_darks);
        if (dark is not null)
        {
            double driftDn2 = _drift.FrameDn2 / dark.ShrinkingOf(_drift.FrameDn2, _floor);
            dark = FitDarkCodes(lines.Samples(temporal, driftDn2))?.WithPatternAsIn(dark) ?? dark;
            double frames = darks.Sum(d => d.Level.Frames);
            black = WithDrift(dark.MeanDn, driftDn2 / frames);

            // The codes hold the lines and the drift of these very frames, which are known; how they differ otherwise is not.
            dark = dark.WithoutShared(new Estimate(temporal.Sum.Value + (driftDn2 * (1 - (1 / frames))), Math.Sqrt(temporal.MeasuredDn4)));
        }

        ChannelLevel[] transferLevels = isCoarse ? [.. _fitted.Where(l => IsFine(l, FineNoiseSteps))] : _fitted;
        PhotonTransfer? transfer = FitTransfer(transferLevels, black.Value, dark, Response);
        Saturation? saturation = _lit.Length == 0 ? null : SaturationEstimator.Of(_lit, black.Value, transfer);
        FixedPatternSummary pattern = new FixedPatternFitter(transferLevels, black.Value, Response, dark).Fit();
        NoiseModel noise = ToNoise(black, transfer, temporal, pattern.Total, saturation, _step);
        if (_bend is { } bend && transfer is not null)
        {
            noise = WithBend(noise, bend, transfer, FitTransfer(transferLevels, black.Value, dark, new ResponseCurve(bend.Value + bend.StandardUncertainty)));
        }

        if (dark is not null && isCoarse)
        {
            noise = WithLinesByCodes(noise, temporal.Sum, dark, (lines with { Codes = lines.Codes!.WithMoreNoise() }).Temporal().Sum.Value - temporal.Sum.Value);
        }

        PhotonTransferPoint[] points = Points(transferLevels, black.Value, Response);
        if (transfer is not null && _drift.FrameDn2 > 0)
        {
            double moved = PhotonTransferEstimator.MovedShareOfGain(transfer, points);
            noise = noise.WithDegreesOfFreedom(NoiseParameter.GainDnPerElectron, _drift.DegreesOfFreedom / (moved * moved));
        }

        return new ChannelModel
        {
            Name = _name,
            Levels = _levels,
            Noise = SharedNoise.Into(noise, transferLevels, points, transfer, temporal, dark),
            Saturation = saturation,
            PhotonTransfer = transfer,
            Temporal = temporal,
            FixedPattern = pattern,
            CodeStepDn = _step,
            BlackDrift = _drift,
            IsBelowStep = isCoarse && IsBelow(CoarseNoiseSteps),
            FitLevels = transfer is null ? new HashSet<LevelRecord>() : transferLevels.Select(l => l.Level).ToHashSet(),
        };
    }

    private PhotonTransfer? FitTransfer(ChannelLevel[] levels, double blackDn, RoundedNormal? dark, ResponseCurve response)
    {
        PhotonTransfer? transfer = PhotonTransferEstimator.Fit(Points(levels, blackDn, response));
        return dark is null || transfer is null
            ? transfer
            : transfer.WithIntercept(new Estimate(dark.TemporalVarianceDn2.Value + Quantisation, dark.TemporalVarianceDn2.StandardUncertainty));
    }

    /// <summary>The bend as a parameter, and what its uncertainty does to the line: both fits differ by one standard uncertainty of it.</summary>
    private static NoiseModel WithBend(NoiseModel noise, Estimate bend, PhotonTransfer transfer, PhotonTransfer? moved)
    {
        NoiseModel bent = noise.With(NoiseParameter.BendPerDn, bend);
        if (moved is null)
        {
            return bent;
        }

        double gain = moved.GainDnPerElectron - transfer.GainDnPerElectron;
        double intercept = moved.InterceptDn2 - transfer.InterceptDn2;
        return bent
            .With(NoiseParameter.GainDnPerElectron, new Estimate(transfer.GainDnPerElectron, Math.Sqrt(transfer.GainVariance + (gain * gain))))
            .With(NoiseParameter.InterceptDn2, new Estimate(transfer.InterceptDn2, Math.Sqrt(transfer.InterceptVariance + (intercept * intercept))))
            .WithCovariance(NoiseParameter.GainDnPerElectron, NoiseParameter.InterceptDn2, transfer.Covariance + (gain * intercept))
            .WithCovariance(NoiseParameter.GainDnPerElectron, NoiseParameter.BendPerDn, gain * bend.StandardUncertainty)
            .WithCovariance(NoiseParameter.InterceptDn2, NoiseParameter.BendPerDn, intercept * bend.StandardUncertainty);
    }

    /// <summary>What codes leave of the lines' variance hangs on the pixels' noise, and is uncertain with it.</summary>
    /// <param name="noise">The model.</param>
    /// <param name="linesDn2">Temporal variance of rows and columns.</param>
    /// <param name="dark">The distribution of the codes.</param>
    /// <param name="movedDn2">By how much the lines' variance moves with one standard uncertainty of the pixels'.</param>
    private static NoiseModel WithLinesByCodes(NoiseModel noise, Estimate linesDn2, RoundedNormal dark, double movedDn2) => noise
        .With(NoiseParameter.RowColumnDn2, linesDn2 with { StandardUncertainty = double.Hypot(linesDn2.StandardUncertainty, movedDn2) })
        .WithCovariance(NoiseParameter.InterceptDn2, NoiseParameter.RowColumnDn2, dark.TemporalVarianceDn2.StandardUncertainty * movedDn2);

    /// <summary>Whether a level's noise is above some steps, judged with the rounding noise included.</summary>
    private bool IsFine(ChannelLevel level, double steps) =>
        level.Channel.TemporalParts!.PixelDn2 >= (steps * steps * _step * _step) + Quantisation;

    private bool IsAboveFloor(ChannelLevel level) => _floor is not { } floor
        || level.Channel.MeanDn - floor > WholeDeviations * Math.Sqrt(level.Channel.TemporalParts!.PixelDn2 + (_step * _step));

    private IEnumerable<ChannelLevel> DarksWithCodes => DarkSignal.WithoutIt(_darks).Where(d => d.Channel is { TemporalParts: not null, Histogram: not null });

    private bool IsBelow(double steps) => DarksWithCodes.Any() && !DarksWithCodes.Any(d => IsFine(d, steps));

    private bool IsCoarse => IsBelow(FineNoiseSteps);

    /// <summary>The distribution of the dark codes; null where their mean and variance say as much, or where it is not determined.</summary>
    /// <param name="lines">What rows and columns share; none in a first look.</param>
    private RoundedNormal? FitDarkCodes(IReadOnlyList<LineSample> lines)
    {
        if (_floor is null && !IsCoarse)
        {
            return null;
        }

        ChannelLevel[] lit = [.. _fitted.Where(l => !l.IsDark && IsFine(l, FineNoiseSteps))];
        double black = BlackLevelEstimator.Of(_darks).Value;
        LitIntercept? intercept = PhotonTransferEstimator.Fit(Points(lit, black, Response)) is { } line
            ? new LitIntercept(new Estimate(line.InterceptDn2 - Quantisation, Math.Sqrt(line.InterceptVariance)), black, line.GainDnPerElectron)
            : null;
        return new DarkCodesFitter([.. DarksWithCodes], _step, _levels[0].Level.PixelsPerChannel, _floor).Fit(intercept, lines);
    }

    /// <summary>A black whose uncertainty holds a drift that is known from few frames.</summary>
    private Estimate WithDrift(Estimate black, double driftOfMeanDn2) => driftOfMeanDn2 > 0
        ? black with { DegreesOfFreedom = Math.Max(1, Math.Pow(black.Variance / driftOfMeanDn2, 2)) * _drift.DegreesOfFreedom }
        : black;

    private PhotonTransferPoint[] Points(ChannelLevel[] levels, double blackDn, ResponseCurve response) =>
        [.. levels.Select(l => ToPoint(l, blackDn, response, _step, _drift))];

    /// <summary>
    /// A level as the line sees it: its signal is that of the shot noise under a straight response, its variance has the
    /// rounding noise of the dark levels' step even where a maker's curve made its own step wider.
    /// </summary>
    internal static PhotonTransferPoint ToPoint(ChannelLevel level, double blackDn, ResponseCurve response, double stepDn, BlackDrift drift)
    {
        VarianceParts parts = level.Channel.TemporalParts!;
        double degrees = 2 * Math.Pow(parts.PixelDn2 / parts.PixelUncertaintyDn2, 2);
        double signal = level.IsDark ? level.DarkSignalDn.Value : response.ShotSignalOf(level.Channel.MeanDn - blackDn);
        double widened = RoundingNoise.VarianceDn2(Math.Max(stepDn, level.Channel.CodeStepDn)) - RoundingNoise.VarianceDn2(stepDn);
        return new PhotonTransferPoint(signal, parts.PixelDn2 - widened, degrees, (double)level.Level.PixelsPerChannel * level.Level.Frames)
        {
            SignalVarianceDn2 = level.IsDark ? level.DarkSignalDn.Variance : drift.OfSignal(level.Level.Frames),
        };
    }

    private static NoiseModel ToNoise(Estimate black, PhotonTransfer? transfer, VarianceSummary temporal, FixedPattern? pattern, Saturation? saturation, double stepDn)
    {
        NoiseModel model = NoiseModel.Empty
            .With(NoiseParameter.BlackDn, black)
            .With(NoiseParameter.RowColumnDn2, temporal.Sum)
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
