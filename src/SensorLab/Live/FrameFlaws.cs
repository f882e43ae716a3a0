using System.Globalization;
using SensorLab.Assignment;
using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Live;

/// <summary>What a frame's own sample shows to be wrong with it, as soon as it is there.</summary>
/// <remarks>
/// A sample is a few rows: what is told here is what has to be shot again at once. All that a finished set is judged by is
/// judged by the finished set's own checks as well, from whole frames.
/// </remarks>
internal sealed class FrameFlaws
{
    /// <summary>Frames of one setting differ by less where nothing moved, in EV.</summary>
    private const double SameSettingEv = 0.04;

    /// <summary>Light against the metered light, in EV: a window that opens, a lamp that drifts.</summary>
    private const double LightMovedEv = 0.12;

    /// <summary>Shutters are off by so much more at their fastest times, in EV.</summary>
    private const double FastShutterEv = 0.35;

    /// <summary>Times from which on a shutter keeps to what its dial says, in seconds.</summary>
    private const double SureShutterSeconds = 1.0 / 500;

    /// <summary>Below this share of the range the response is straight enough to tell light by.</summary>
    private const double StraightShare = 0.5;

    /// <summary>Signal in limits of darkness from which on light is told to a hundredth of a stop.</summary>
    private const double SureLimits = 40;

    /// <summary>Where middle grey can lie, in EV below the top of the range.</summary>
    private const double GreyLowestEv = -7.5;

    private const double GreyHighestEv = -1;

    private readonly Dictionary<string, SeenFrame> _seen;
    private readonly Dictionary<string, AssignedFrame> _assigned;
    private readonly ShotPlan? _plan;

    /// <summary>Takes all frames of a card.</summary>
    public FrameFlaws(IEnumerable<SeenFrame> seen, IEnumerable<AssignedFrame> assigned, ShotPlan? plan)
    {
        _seen = seen.ToDictionary(s => s.File, StringComparer.Ordinal);
        _assigned = assigned.ToDictionary(a => a.File, StringComparer.Ordinal);
        _plan = plan;
    }

    /// <summary>A frame's light against its ISO's metered light in EV; null where it is not told.</summary>
    public double? LightEvOf(string file) => _seen.GetValueOrDefault(file) is { } frame && ReferenceOf(frame) is { } reference ? DifferenceEv(frame, reference) : null;

    /// <summary>What is wrong with a frame.</summary>
    /// <param name="file">The frame.</param>
    public IEnumerable<LiveFlaw> Of(string file)
    {
        AssignedFrame assigned = _assigned[file];
        SeenFrame? frame = _seen.GetValueOrDefault(file);
        if (assigned.IsUnplanned && _plan is not null)
        {
            yield return frame is not null && IsLitDark(frame)
                ? new LiveFlaw(FindingCode.DarkLit, $"Light fell on it, and this setting is a dark one of the plan. {assigned.Why}", "Cap on, eyepiece covered, the room dimmed; shoot it again.", true)
                : new LiveFlaw(FindingCode.FrameUnassigned, assigned.Why, "Turn the dials as the plan has them, look after lamp and filter, and shoot the step again. This frame is left out.", true);
        }
        else if (!assigned.IsSure)
        {
            yield return new LiveFlaw(FindingCode.FrameUnassigned, assigned.Why, "Answer the question, or shoot the step again.", false);
        }

        if (frame is null || assigned.Use.Role is not { } role)
        {
            yield break;
        }

        foreach (LiveFlaw flaw in role is FrameRole.Dark ? [] : LitFlaws(frame, role))
        {
            yield return flaw;
        }
    }

    private IEnumerable<LiveFlaw> LitFlaws(SeenFrame frame, FrameRole role)
    {
        double? ev = _plan?.Steps.FirstOrDefault(s => s.Number == _assigned[frame.File].Step)?.Ev;
        if (role is FrameRole.Metered or FrameRole.Light)
        {
            if (frame.IsClipped)
            {
                yield return new LiveFlaw(FindingCode.MeteredDoubtful, "This metered frame clips: the meter cannot have read zero on the field.", "Spot metering, the spot on the field, compensation at zero; then meter and shoot again.", true);
            }
            else if (Math.Log2(Math.Max(frame.SignalDn, 1e-9) / frame.RangeDn) is var share && (share < GreyLowestEv || share > GreyHighestEv))
            {
                yield return new LiveFlaw(FindingCode.MeteredDoubtful, string.Create(CultureInfo.InvariantCulture, $"This metered frame lies {-share:0.0} EV below the top of the range, where no middle grey lies."), "Spot metering, the spot on the field, compensation at zero; then meter and shoot again.", true);
            }
        }
        else if (frame.IsClipped && ev is < 0)
        {
            yield return new LiveFlaw(FindingCode.LightFlicker, string.Create(CultureInfo.InvariantCulture, $"It clips, and was to lie {-ev:0.0} EV below middle grey: far more light than was metered."), "Close what lets light in, and shoot the step again.", true);
        }

        if (role is not (FrameRole.Bracket or FrameRole.Metered))
        {
            yield break;
        }

        if (_plan?.Steps.FirstOrDefault(s => s.Number == _assigned[frame.File].Step) is { } step && step.LightStep != _assigned[frame.File].Use.LightStep)
        {
            yield return new LiveFlaw(FindingCode.LightStepped, _assigned[frame.File].Why, "Bring lamp, filter and windows to what the plan has, and shoot this step again. Where they were moved on purpose, nothing is to be done.", true);
        }
        else if (Moved(frame, role) is { } moved)
        {
            yield return moved;
        }
    }

    private LiveFlaw? Moved(SeenFrame frame, FrameRole role)
    {
        if (!IsTold(frame))
        {
            return null;
        }

        SeenFrame? twin = _seen.Values.Where(s => s.Order < frame.Order && IsTold(s) && IsSameSetting(s, frame) && IsSameUse(s, frame)).MaxBy(s => s.Order);
        if (twin is not null && Math.Abs(frame.LightEv!.Value - twin.LightEv!.Value) is > SameSettingEv and var apart)
        {
            return new LiveFlaw(
                role == FrameRole.Metered ? FindingCode.MeteredDoubtful : FindingCode.LightFlicker,
                string.Create(CultureInfo.InvariantCulture, $"{apart:0.00} EV {(frame.LightEv > twin.LightEv ? "more" : "less")} light than in {twin.File} at the same setting."),
                "Let nothing move: lamp, window, your own shadow. Shoot the step again under steady light.",
                true);
        }

        if (ReferenceOf(frame) is not { } reference || reference == frame || DifferenceEv(frame, reference) is not { } ev)
        {
            return null;
        }

        double allowed = Math.Min(frame.Seconds, reference.Seconds) < SureShutterSeconds ? FastShutterEv : LightMovedEv;
        return Math.Abs(ev) <= allowed ? null : new LiveFlaw(
            FindingCode.LightDrift,
            string.Create(CultureInfo.InvariantCulture, $"The light is {Math.Abs(ev):0.00} EV {(ev > 0 ? "brighter" : "dimmer")} than it was in {reference.File}, when this ISO was metered."),
            "Look for a window, a lamp that warms, a filter. Bring the light back, or meter this ISO anew; then shoot this step again.",
            true);
    }

    // The first metered frame of the ISO; of a light step the first frame of it.
    private SeenFrame? ReferenceOf(SeenFrame frame)
    {
        string? step = _assigned[frame.File].Use.LightStep;
        SeenFrame[] told = [.. _seen.Values.Where(s => s.Iso == frame.Iso && IsTold(s) && _assigned[s.File].Use is { Role: FrameRole.Metered or FrameRole.Bracket } use && use.LightStep == step).OrderBy(s => s.Order)];
        return step is null ? told.LastOrDefault(s => _assigned[s.File].Use.Role == FrameRole.Metered && s.Order <= frame.Order) : told.FirstOrDefault();
    }

    // Files hold what is engraved, or what was exposed.
    private static double? DifferenceEv(SeenFrame frame, SeenFrame reference)
    {
        if (frame.LightEv is not { } own || reference.LightEv is not { } its)
        {
            return null;
        }

        double said = own - its;
        double exact = said + Math.Log2(frame.Seconds / ExactSeconds(frame)) - Math.Log2(reference.Seconds / ExactSeconds(reference));
        return Math.Abs(exact) < Math.Abs(said) ? exact : said;
    }

    private static double ExactSeconds(SeenFrame frame) => frame.Thirds is { } thirds ? new ShutterTime(thirds).ExactSeconds : frame.Seconds;

    private static bool IsTold(SeenFrame frame) => frame.LightEv is not null && frame.SignalDn > SureLimits * frame.LimitDn && frame.SignalDn < StraightShare * frame.RangeDn;

    private static bool IsSameSetting(SeenFrame one, SeenFrame other) => one.Iso == other.Iso && one.Thirds == other.Thirds;

    private bool IsSameUse(SeenFrame one, SeenFrame other) => _assigned[one.File].Use == _assigned[other.File].Use;

    private bool IsLitDark(SeenFrame frame) => !frame.IsDark && _plan!.Steps.Any(s => s.Role == RoleName.Dark && s.Iso == frame.Iso && ShutterTime.Nearest(s.ExposureSeconds)?.Thirds == frame.Thirds);
}
