using System.Globalization;
using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Assignment;

/// <summary>Tells frames by the plan that they were shot by: its order and settings; the light by the pixels.</summary>
internal sealed class ByPlan
{
    /// <summary>How far a lamp and a filter may be off what the plan says, in EV.</summary>
    private const double LightToleranceEv = 0.75;

    /// <summary>Another lamp is metered by its own colours: its green may lie further off.</summary>
    private const double OtherLampToleranceEv = 1.2;

    /// <summary>A ratio of channels that moves by so much is another lamp's, in EV; filters keep theirs to about a tenth.</summary>
    private const double OtherColourEv = 0.2;

    private const double SameColourEv = 0.05;
    private const double WrongLightCost = 4;
    private const double WrongColourCost = 5;
    private const double UnlikelyColourCost = 1.5;
    private const double TextureCost = 1;
    private const double DarkSignalCost = 1.5;

    /// <summary>A lit frame has at least so many times the signal of a dark one that long exposure filled.</summary>
    private const double LitOverDark = 8;

    /// <summary>On a dial of third stops, a frame so far off is no frame of the plan, in EV; dials of half stops lie off by a sixth.</summary>
    private const double OffDialEv = 0.08;

    private readonly IReadOnlyList<PlanSlot> _slots;
    private readonly bool _isDialOfThirds;
    private readonly IReadOnlyList<Reading> _readings;
    private readonly List<AssignmentQuestion> _questions;
    private readonly List<Finding> _findings;
    private readonly Dictionary<int, IsoLight?> _lightOf;

    private ByPlan(ShotPlan plan, IReadOnlyList<Reading> readings, List<AssignmentQuestion> questions, List<Finding> findings)
    {
        _slots = PlanSlot.Of(plan);
        _readings = readings;
        _questions = questions;
        _findings = findings;
        _isDialOfThirds = readings.Count(r => r.Seen!.OffDialEv <= OffDialEv) > 0.75 * readings.Count;
        HashSet<(int, int?)> settings = [.. _slots.Select(s => (s.Step.Iso, s.Thirds))];
        _lightOf = readings
            .Where(r => !r.Seen!.IsDark && settings.Contains((r.Seen.Iso, r.Seen.Thirds)))
            .GroupBy(r => r.Seen!.Iso)
            .ToDictionary(g => g.Key, g => Brightest([.. g.Select(r => r.Seen!)]));
    }

    /// <summary>Tells frames.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="readings">The frames that are not told yet, in the order in which they were taken.</param>
    /// <param name="questions">What has to be asked.</param>
    /// <param name="findings">What was found beside.</param>
    public static void Tell(ShotPlan plan, IReadOnlyList<Reading> readings, List<AssignmentQuestion> questions, List<Finding> findings) =>
        new ByPlan(plan, readings, questions, findings).Tell();

    private void Tell()
    {
        SeenFrame[] frames = [.. _readings.Select(r => r.Seen!)];
        Dictionary<SeenFrame, Reading> readingOf = _readings.ToDictionary(r => r.Seen!);
        var alignment = new PlanAlignment(_slots, frames, (frame, slot) => Fit(readingOf[frame], slot));
        for (int i = 0; i < frames.Length; i++)
        {
            Take(_readings[i], alignment.Read(i, s => (s.Step.Role, s.Step.Light, s.Step.Look, frames[i].LightEv is null ? s.Step.LightStep : null)));
        }

        LaterReadings();
        NameLights();
        Ask();
    }

    private static IsoLight? Brightest(SeenFrame[] lit)
    {
        IReadOnlyList<LightGroup> groups = LightSteps.Of([.. lit.Select(f => f.Light)]).Groups;
        int most = groups.Count == 0 ? 0 : groups.Max(g => g.Readings.Count);
        if (groups.FirstOrDefault(g => g.Readings.Count >= Math.Min(3, most)) is not { } group)
        {
            return null;
        }

        HashSet<LightReading> own = new(group.Readings, ReferenceEqualityComparer.Instance);
        (double Red, double Blue)[] colours = [.. lit.Where(f => own.Contains(f.Light)).Select(f => f.Colour).OfType<(double, double)>()];
        return new IsoLight(group.LightEv, colours.Length == 0 ? null : (colours.Select(c => c.Red).Order().ElementAt(colours.Length / 2), colours.Select(c => c.Blue).Order().ElementAt(colours.Length / 2)));
    }

    private static double? ColourDistance(SeenFrame frame, IsoLight light) => frame.Colour is { } own && light.Colour is { } usual
        ? Math.Max(Math.Abs(own.Red - usual.Red), Math.Abs(own.Blue - usual.Blue))
        : null;

    private double? Fit(Reading reading, PlanSlot slot)
    {
        SeenFrame frame = reading.Seen!;
        bool isFiledElsewhere = reading.Frame.Filed?.Role is { } filed && RoleWord.Of(filed) != slot.Step.Role;
        if (isFiledElsewhere || (_isDialOfThirds && frame.OffDialEv > OffDialEv))
        {
            return null;
        }

        double texture = reading.IsTextureDoubtful ? TextureCost : 0;
        IsoLight? light = _lightOf.GetValueOrDefault(frame.Iso);
        if (slot.Step.Role == RoleName.Dark)
        {
            return frame.IsDark ? 0 : IsDarkSignal(frame, light) ? DarkSignalCost : null;
        }

        if (light is null)
        {
            return texture;
        }

        double expectedEv = light.LightEv - slot.FilterStops;
        if (frame.IsDark && frame.SignalAt(expectedEv) > 3 * frame.LimitDn)
        {
            return null;
        }

        bool isOtherLamp = slot.Step.Role == RoleName.Light;
        double toleranceEv = isOtherLamp ? OtherLampToleranceEv : LightToleranceEv;
        double off = frame.LightEv is { } own ? Math.Pow((own - expectedEv) / toleranceEv, 2) : WrongLightCost;
        double wrong = frame.Light.MayBeAt(expectedEv, toleranceEv) ? 0 : Math.Min(WrongLightCost, off);
        double colour = (ColourDistance(frame, light), isOtherLamp) switch
        {
            ( > OtherColourEv, false) => WrongColourCost,
            ( < SameColourEv, true) => UnlikelyColourCost,
            _ => 0,
        };
        return wrong + colour + texture;
    }

    // Of a long exposure: a signal that no lamp of this set makes.
    private bool IsDarkSignal(SeenFrame frame, IsoLight? light)
    {
        double dimmest = _slots.Where(s => s.Step.Iso == frame.Iso && s.Thirds == frame.Thirds && s.Step.Role != RoleName.Dark).Select(s => s.FilterStops).DefaultIfEmpty(_slots.Where(s => s.Step.Iso == frame.Iso).Max(s => s.FilterStops)).Max();
        return light is null || frame.SignalAt(light.LightEv - dimmest) > LitOverDark * frame.SignalDn;
    }

    private void Take(Reading reading, (PlanSlot? Slot, bool IsSure, PlanSlot? Other) read)
    {
        SeenFrame frame = reading.Seen!;
        string setting = string.Create(CultureInfo.InvariantCulture, $"ISO {frame.Iso}, {TimeText(frame.Seconds)}");
        if (read.Slot is null && reading.Frame.Filed is { } filed)
        {
            reading.Take(filed, $"It lies in {filed.RoleName}/; the plan has no such frame of {setting}.");
            return;
        }

        if (read.Slot is not { } slot)
        {
            reading.IsUnplanned = true;
            bool isPlanned = (!_isDialOfThirds || frame.OffDialEv <= OffDialEv) && _slots.Any(s => s.Step.Iso == frame.Iso && s.Thirds == frame.Thirds);
            reading.Take(FrameUse.None, isPlanned
                ? $"The plan has {setting}, but {(frame.IsDark ? "not without light" : "in other light")}."
                : $"The plan has no frame of {setting}.");
            return;
        }

        if (!read.IsSure)
        {
            string other = read.Other is { } second ? $"{WordsOf(second)} (step {second.Step.Number})" : "no frame of the plan";
            reading.Doubt($"{setting}: {WordsOf(slot)} (step {slot.Step.Number}), or {other}.");
            reading.Slot = slot;
            return;
        }

        reading.Slot = slot;
        FrameRole role = Enum.Parse<FrameRole>(slot.Step.Role, ignoreCase: true);
        string light = role == FrameRole.Dark ? "No light in it" : "Lit as the plan has it";
        reading.Take(
            new FrameUse(role, slot.Step.LightStep, slot.Step.Light, slot.Step.Look),
            string.Create(CultureInfo.InvariantCulture, $"Step {slot.Step.Number} of the plan: {setting}. {light}."));
    }

    /// <summary>Where the light was trimmed anew, the later reading counts, if the plan says so.</summary>
    private void LaterReadings()
    {
        foreach (var group in _readings.Where(r => r.Slot?.Step.LaterCounts == true && !r.IsOpen && r.IsSure).GroupBy(r => (r.Seen!.Iso, r.Slot!.Step.Light)))
        {
            var visits = new List<List<Reading>>();
            foreach (Reading reading in group)
            {
                if (visits.Count == 0 || reading.Slot!.Step.Number < visits[^1][^1].Slot!.Step.Number)
                {
                    visits.Add([]);
                }

                visits[^1].Add(reading);
            }

            bool isWhole = visits.Count > 1 && visits[..^1].SelectMany(v => v).Select(r => r.Slot!.Step).Distinct().All(s => visits[^1].Count(r => r.Slot!.Step == s) >= s.Frames);
            foreach (Reading earlier in isWhole ? visits[..^1].SelectMany(v => v) : [])
            {
                earlier.Take(FrameUse.None, "Metered anew afterwards; the plan takes the later reading.");
            }
        }
    }

    private void NameLights()
    {
        foreach (IGrouping<int, Reading> iso in _readings.Where(r => r.Is(FrameRole.Metered) || r.Is(FrameRole.Bracket)).GroupBy(r => r.Seen!.Iso))
        {
            Dictionary<SeenFrame, Reading> readingOf = iso.ToDictionary(r => r.Seen!);
            var lights = new IsoLights([.. iso.Select(r => r.Seen!)], f => readingOf[f].Is(FrameRole.Metered), f => readingOf[f].Slot?.Step.LightStep);
            Reading[] moved = [.. iso.Where(r => lights.Tells(r.Seen!) && lights.NameOf(r.Seen!) != r.Use!.LightStep)];
            foreach (Reading reading in moved)
            {
                string said = reading.Use!.LightStep is { } name ? $"light step \"{name}\"" : "the metered light";
                string found = lights.DifferenceOf(reading.Seen!) ?? "the metered light";
                reading.Take(reading.Use with { LightStep = lights.NameOf(reading.Seen!) }, $"{reading.Why} The plan has {said}; the pixels show {found}.");
            }

            if (moved.Length > 0)
            {
                _findings.Add(new Finding
                {
                    Code = FindingCode.LightStepped,
                    Severity = FindingSeverity.Note,
                    Iso = iso.Key,
                    Frames = [.. moved.Select(r => r.Frame.File).Order(StringComparer.Ordinal)],
                    Size = moved.Length,
                    SizeUnit = "count",
                    Message = string.Create(CultureInfo.InvariantCulture, $"At ISO {iso.Key} {moved.Length} frame{(moved.Length == 1 ? " was" : "s were")} shot in another light than the plan has, by their signal; each was assigned to the light it shows."),
                    Remedy = "Nothing to do, if a filter was forgotten or moved; what the plan still misses is listed by intake --plan.",
                });
            }
        }
    }

    private void Ask()
    {
        foreach (var doubt in _readings.Where(r => r.Slot is not null && !r.IsSure).GroupBy(r => r.Why))
        {
            _questions.Add(new AssignmentQuestion(
                [.. doubt.Select(r => r.Frame.File)],
                $"{doubt.Key} Which? Write their role (and lightStep, light or look) into their rows of frames.csv, or none, and assign again."));
        }
    }

    private static string WordsOf(PlanSlot slot)
    {
        string[] words = [.. new[] { slot.Step.Role, slot.Step.LightStep, slot.Step.Light, slot.Step.Look }.OfType<string>()];
        return string.Join(", ", words);
    }

    private static string TimeText(double seconds) => ShutterTime.Nearest(seconds) is { } time ? time.Label + " s" : FormattableString.Invariant($"{seconds:0.#####} s");

    /// <summary>An ISO's metered light: log2 of signal per second, and red and blue against green.</summary>
    private sealed record IsoLight(double LightEv, (double Red, double Blue)? Colour);
}
