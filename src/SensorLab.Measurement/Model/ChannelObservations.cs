using SensorLab.Law;
using SensorLab.Measurement.Black;
using SensorLab.Measurement.Codes;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>What a channel's levels bring to the fit of an ISO: which of them serve, black, lines, and what coarse or cut-off dark codes tell.</summary>
internal sealed class ChannelObservations
{
    /// <summary>Share of saturation below which a level's variance is whole, where no dimmer level serves.</summary>
    private const double PlateauShare = 0.9;

    /// <summary>Noise in code steps from which on rounding adds step²/12 to within 3·10⁻⁴ step², wherever the mean lies between two codes.</summary>
    private const double FineNoiseSteps = 0.65;

    /// <summary>Noise in code steps below which a finding says that rounding is not noise of step²/12.</summary>
    private const double CoarseNoiseSteps = 0.5;

    /// <summary>Noise in mean steps from which on uneven steps round as even ones do: their pattern then averages out to a thousandth.</summary>
    private const double EvenNoiseSteps = 2.5;

    /// <summary>Mean steps of so many DN and more are a coarse recording's own, not a fraction's.</summary>
    private const double MostUnevenStepDn = 2;

    /// <summary>Lit levels without which uneven ones serve, too.</summary>
    private const int FewestEven = 4;

    private readonly ObservedLevel[] _darks;
    private readonly IReadOnlyList<LevelRecord> _ofOneBlack;
    private readonly double _levelsDn2;
    private readonly ObservedLevel[] _fitted;
    private readonly int? _floor;
    private readonly ResponseCurve _response;

    /// <summary>Sorts a channel's levels.</summary>
    /// <param name="name">The channel.</param>
    /// <param name="levels">Level records of one ISO.</param>
    /// <param name="black">What their dark frames tell.</param>
    /// <param name="response">How recorded signal follows exposure, as far as it is known.</param>
    public ChannelObservations(string name, IReadOnlyList<LevelRecord> levels, BlackModel black, ResponseCurve response)
    {
        Name = name;
        _response = response;
        Drift = black.Drift;
        _ofOneBlack = black.OfOneBlack;
        _levelsDn2 = black.LevelsDn2;
        Levels = DarkSignal.Into(ObservedLevel.Of(levels.Where(l => l.Role != RoleName.Light), name), Drift);
        _darks = [.. Levels.Where(l => l.IsDark)];
        Lit = [.. Levels.Where(l => !l.IsDark)];

        // A maker's curve has wide steps in bright levels, where photon noise drowns them: the dark ones' step counts.
        StepDn = _darks.Max(l => l.Channel.CodeStepDn);
        _floor = _darks.Select(d => d.Channel.Histogram is { } codes ? DarkFloor.Of(codes, d.Level.Frames) : null).Min();
        OwnBlack = black.OwnOf(name);
        DriftOfBlackDn2 = Drift.BlackDn2;
        double blackDn = OwnBlack.Value;
        double top = Lit.Length == 0 ? 0 : Lit.Max(l => l.Channel.MeanDn) - blackDn;
        ObservedLevel[] whole = [.. Levels.Where(l => l.Channel is { TemporalParts.PixelUncertaintyDn2: > 0, ClippedFraction: <= 0 } && IsAboveFloor(l))];

        // Where nothing dimmer was shot, the dimmest level is all there is: with dark frames it gives a line, unless it is on a plateau.
        double dimmest = whole.Where(l => !l.IsDark).Select(l => l.Channel.MeanDn - blackDn).DefaultIfEmpty().Min();
        double full = Lit.Length == 0 ? double.NaN : SaturationEstimator.Of(Lit, blackDn, null).MeanDn?.Value - blackDn ?? double.PositiveInfinity;
        double limit = Math.Max(SignalShare.WellBelowClip * top, dimmest < PlateauShare * full ? dimmest : 0);
        ObservedLevel[] below = [.. whole.Where(l => l.IsDark || l.Channel.MeanDn - blackDn <= limit)];
        ObservedLevel[] even = [.. below.Where(l => l.IsDark || !IsUneven(l))];
        _fitted = even.Count(l => !l.IsDark) >= FewestEven ? even : below;
        FitLevels = _fitted;
        LookAtCodes();
    }

    /// <summary>The channel's name.</summary>
    public string Name { get; }

    /// <summary>Its levels, dark ones with their dark signal.</summary>
    public IReadOnlyList<ObservedLevel> Levels { get; }

    /// <summary>Its lit levels.</summary>
    public ObservedLevel[] Lit { get; }

    /// <summary>Levels whose variances serve the fit.</summary>
    public ObservedLevel[] FitLevels { get; private set; }

    /// <summary>Spacing of codes in DN.</summary>
    public double StepDn { get; }

    /// <summary>How black drifts, all channels alike.</summary>
    public BlackDrift Drift { get; }

    /// <summary>Variance in DN² that all channels' black shares.</summary>
    public double DriftOfBlackDn2 { get; private set; }

    /// <summary>The black level in DN, with what the channel has of it alone.</summary>
    public Estimate OwnBlack { get; private set; }

    /// <summary>The black level in DN, with what it shares.</summary>
    public Estimate Black => new(OwnBlack.Value, Math.Sqrt(OwnBlack.Variance + DriftOfBlackDn2));

    /// <summary>Temporal variance of rows and columns in DN².</summary>
    public DarkLineVariances Lines { get; private set; } = new(default, default);

    /// <summary>By how much those of rows and of columns may be off in DN², where dark levels contradict each other.</summary>
    public (double RowDn2, double ColumnDn2) LineDoubts { get; private set; }

    /// <summary>What coarse or cut-off dark codes tell; null where their means and variances serve.</summary>
    public RoundedNormal? Codes { get; private set; }

    /// <summary>Temporal variance in DN² that coarse dark codes tell without the lit levels' help, rounding's included; null where they do not.</summary>
    public Estimate? UnlitByCodesDn2 { get; private set; }

    /// <summary>The part of its intercept's variance that the codes know better than the lit levels: 1 where they alone tell it.</summary>
    public double LitShareOfIntercept { get; private set; }

    /// <summary>By how much the lines' variance in DN² moves with one standard uncertainty of the codes' temporal variance.</summary>
    public double LinesByCodesDn2 { get; private set; }

    /// <summary>Whether the dark noise is below half a step and the rounded normal was fitted.</summary>
    public bool IsBelowStep { get; private set; }

    /// <summary>Variance in DN² that rounding adds.</summary>
    public double QuantisationDn2 => RoundingNoise.VarianceDn2(StepDn);

    /// <summary>A level's variance as the line sees it.</summary>
    /// <param name="level">A level of two frames or more.</param>
    /// <param name="blackDn">Black in DN, that of lit frames for a lit level.</param>
    /// <param name="response">How recorded signal follows exposure.</param>
    public PhotonTransferPoint PointOf(ObservedLevel level, double blackDn, ResponseCurve response) => PhotonTransferPoint.Of(level, blackDn, response, StepDn, Drift);

    /// <summary>
    /// Variance in DN⁴ of what rounding adds to a level's variance where single steps beside double ones lie too far apart for its
    /// noise: one missing code near black takes or gives as much as the rounding of the mean step is. Lit levels of that kind do not serve.
    /// </summary>
    /// <param name="level">The level.</param>
    public static double RoundingDoubtDn4(ObservedLevel level) =>
        level.IsDark && IsUneven(level) ? Math.Pow(RoundingNoise.VarianceDn2(level.Channel.CodeStepDn), 2) : 0;

    private IEnumerable<ObservedLevel> DarksWithCodes => _darks.Where(d => _ofOneBlack.Contains(d.Level) && d.Channel is { TemporalParts: not null, Histogram: not null });

    /// <summary>Fits the dark codes where their mean and variance do not say as much, and takes black and lines from them.</summary>
    private void LookAtCodes()
    {
        bool isCoarse = IsBelow(FineNoiseSteps);
        LitIntercept? intercept = _floor is null && !isCoarse ? null : InterceptOfLit();
        RoundedNormal? first = _floor is null && !isCoarse ? null : FitCodes(intercept, []);
        isCoarse = isCoarse && first is not null;
        ObservedLevel[] fineLit = [.. _fitted.Where(l => !l.IsDark && (!isCoarse || IsFine(l, FineNoiseSteps)))];
        ObservedLevel[] darks = [.. first is null ? _darks.Where(d => d.Channel.TemporalParts is not null) : DarksWithCodes];
        DarkLines lines = new(fineLit, darks, first, _floor);
        Lines = lines.Temporal();
        LineDoubts = lines.Doubts();
        IsBelowStep = isCoarse && IsBelow(CoarseNoiseSteps);
        if (isCoarse)
        {
            FitLevels = [.. _fitted.Where(l => IsFine(l, FineNoiseSteps))];
            UnlitByCodesDn2 = FitCodes(null, [])?.TemporalVarianceDn2 is { } alone ? alone with { Value = alone.Value + QuantisationDn2 } : null;
            LinesByCodesDn2 = (lines with { Codes = first!.WithMoreNoise() }).Temporal().Sum.Value - Lines.Sum.Value;
        }

        if (first is null)
        {
            return;
        }

        Estimate drifted = DarkFrames.HeldDn2(DarkFrames.Of([.. darks.Select(d => d.Level)]));
        double shrinking = first.ShrinkingOf(Math.Max(Drift.FrameDn2, drifted.Value), _floor);
        double driftDn2 = Drift.FrameDn2 / shrinking;
        RoundedNormal fitted = FitCodes(intercept, lines.Samples(Lines, driftDn2))?.WithPatternAsIn(first) ?? first;
        double frames = darks.Sum(d => d.Level.Frames);
        double ofFrames = driftDn2 / frames;
        DriftOfBlackDn2 = ofFrames + (_levelsDn2 * darks.Sum(d => Math.Pow(d.Level.Frames / frames, 2)));
        OwnBlack = fitted.MeanDn with { StandardUncertainty = Math.Sqrt(Math.Max(0, fitted.MeanDn.Variance - ofFrames)) };
        LitShareOfIntercept = intercept is { } lit ? Math.Min(1, fitted.TemporalVarianceDn2.Variance / lit.VarianceDn2.Variance) : 0;

        // The codes hold the lines and the drift of these very frames, which are known; how they differ otherwise is not.
        Codes = fitted.WithoutShared(new Estimate(Lines.Sum.Value + (drifted.Value / shrinking), double.Hypot(Math.Sqrt(Lines.MeasuredDn4), drifted.StandardUncertainty / shrinking)));
    }

    /// <summary>The distribution of the dark codes; null where it is not determined.</summary>
    private RoundedNormal? FitCodes(LitIntercept? intercept, IReadOnlyList<LineSample> lines) =>
        new DarkCodesFitter([.. DarksWithCodes], StepDn, Levels[0].Pixels, _floor).Fit(intercept, lines);

    /// <summary>What fine lit levels alone say of the noise without light.</summary>
    private LitIntercept? InterceptOfLit()
    {
        double black = Black.Value;
        PhotonTransferPoint[] points = [.. _fitted.Where(l => !l.IsDark && IsFine(l, FineNoiseSteps)).Select(l => PointOf(l, black, _response))];
        return PhotonTransferEstimator.Fit(points) is { } line
            ? new LitIntercept(new Estimate(line.InterceptDn2 - QuantisationDn2, Math.Sqrt(line.InterceptVariance)), black, line.GainDnPerElectron)
            : null;
    }

    /// <summary>Whether a level's noise is above some steps, judged with the rounding noise included.</summary>
    private bool IsFine(ObservedLevel level, double steps) =>
        level.Channel.TemporalParts!.PixelDn2 >= (steps * steps * StepDn * StepDn) + QuantisationDn2;

    private bool IsAboveFloor(ObservedLevel level) => _floor is not { } floor
        || level.Channel.MeanDn - floor > Significance.Whole * Math.Sqrt(level.Channel.TemporalParts!.PixelDn2 + (StepDn * StepDn));

    /// <summary>Whether codes that were multiplied by a fraction, single steps beside double ones, lie too far apart for a level's noise.</summary>
    private static bool IsUneven(ObservedLevel level)
    {
        double step = level.Channel.CodeStepDn;
        return step < MostUnevenStepDn && step != Math.Round(step) && level.Channel.TemporalParts!.PixelDn2 < EvenNoiseSteps * EvenNoiseSteps * step * step;
    }

    private bool IsBelow(double steps) => DarksWithCodes.Any() && !DarksWithCodes.Any(d => IsFine(d, steps));
}
