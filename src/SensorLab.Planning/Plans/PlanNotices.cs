using System.Globalization;

namespace SensorLab.Planning.Plans;

/// <summary>What a plan assumes, and what it cannot reach or avoid.</summary>
/// <param name="request">What was asked for.</param>
/// <param name="isPulsing">Whether no time hides the lamp's pulses.</param>
/// <param name="layouts">The exposures.</param>
/// <param name="search">What chose them.</param>
/// <param name="steps">The steps.</param>
internal sealed class PlanNotices(PlanRequest request, bool isPulsing, IReadOnlyList<IsoLayout> layouts, ScheduleSearch search, IReadOnlyList<PlanStep> steps)
{
    private const double BaseIso = 100;

    /// <summary>What the plan assumes.</summary>
    /// <param name="source">Where its expectations come from.</param>
    public IEnumerable<string> Assumes(string source)
    {
        yield return source;
        yield return request.Mains is { } mains
            ? Text($"Lamps run on {mains.FrequencyHz} Hz and pulse {mains.PulsesPerSecond} times a second by no more than {100 * MainsLight.LampRipple:0} % about their mean, as filament lamps at full power do.")
            : "The light does not pulse: daylight, a battery, or lamps on direct current. For lamps on the mains name its frequency: --mains 50 or 60.";
        yield return "The shutter dial has third stops; with half stops take the nearest time. Minutes are those of an unhurried pace with a remote control; setting up takes a quarter of an hour more.";
    }

    /// <summary>What cannot be reached or avoided, with the way out.</summary>
    public IEnumerable<PlanNotice> All() => [.. Pulses(), .. Ends(), .. Light(), .. Ladder(), .. Isos()];

    private IEnumerable<PlanNotice> Pulses()
    {
        if (request.Mains is not { } mains)
        {
            yield break;
        }

        if (isPulsing)
        {
            yield return new PlanNotice(
                "light-pulses",
                null,
                Text($"No two neighbouring times of this shutter hold whole pulses of {mains.FrequencyHz} Hz: bands and flicker cannot be avoided under lamps on the mains; up to {steps.Max(s => s.RipplePercent ?? 0):0.#} % of the light."),
                "Use a lamp on a battery or on direct current, an LED panel on its own direct-current supply, or daylight, and plan without --mains.");
        }

        double worst = steps.Max(s => s.RipplePercent ?? 0) / MainsLight.LampRipple;
        yield return new PlanNotice(
            "ripple-of-other-lamps",
            null,
            Text($"A lamp that goes dark between pulses (dimmed, a tube on an old ballast, a simple LED) still moves the light of single exposures by up to {worst:0.#} %."),
            "Use filament lamps at full power, an LED panel on direct current, or daylight; take light away by distance or filter, never with a dimmer.");
    }

    private IEnumerable<PlanNotice> Ends()
    {
        foreach (IsoLayout layout in layouts.Where(l => l.BrightestMissingEv is not null))
        {
            double reached = layout.Levels.Select(l => l.Ev).Append(IsoLayoutBuilder.EdgeEv).Max();
            yield return new PlanNotice(
                "clip-not-reached",
                layout.Iso,
                Text($"At ISO {layout.Iso} the bracket ends {reached:0.#} stops above middle grey, {layout.BrightestMissingEv - reached:0.#} stops early: some channel may not clip, and the latitude above may be a lower bound."),
                "More light on the field: a nearer or a second lamp, or a wider aperture (not the widest), for the whole ISO.");
        }

        foreach (IsoLayout layout in layouts.Where(l => l.DarkestMissingEv is not null))
        {
            double reached = layout.Levels.Select(l => l.Ev).Append(-IsoLayoutBuilder.EdgeEv).Min();
            yield return new PlanNotice(
                "shadow-not-reached",
                layout.Iso,
                Text($"At ISO {layout.Iso} the bracket ends {-reached:0.#} stops below middle grey, where the shadow end wants {-layout.DarkestMissingEv:0.#}: below it the model between there and the dark frames is used."),
                "A body with faster shutter times (its electronic shutter is another recording mode: use it for all frames or none), or less light through a smaller aperture for the whole ISO.");
        }
    }

    private IEnumerable<PlanNotice> Light()
    {
        int most = request.Metered is null ? 0 : layouts.Max(search.LightThirdsOf);
        if (most > 0)
        {
            yield return new PlanNotice(
                "light-too-dim",
                null,
                Text($"The light is too dim by {most / 3.0:0.#} stops: the exposures would run past the slowest shutter time."),
                Text($"Bring the lamp to {Math.Pow(2, -most / 6.0):0.##} of its distance, add another, or open the aperture (not to its widest)."));
        }
    }

    private IEnumerable<PlanNotice> Ladder()
    {
        double[] missing = [.. request.Protocol.Dark.LadderSeconds.Where(s => ShutterTime.Nearest(s) is not { } t || t > request.Shutter.Slowest || t < request.Shutter.Fastest)];
        if (missing.Length > 0)
        {
            yield return new PlanNotice(
                "time-not-reached",
                null,
                $"Dark frames of {string.Join(", ", missing.Select(s => s.ToString(CultureInfo.InvariantCulture)))} s lie outside the shutter's range and are not in the list.",
                "Shoot them with the bulb setting and a watch, or a remote timer.");
        }
    }

    private IEnumerable<PlanNotice> Isos()
    {
        int[] between = [.. layouts.Select(l => l.Iso).Where(i => Math.Abs(Math.Log2(i / BaseIso) - Math.Round(Math.Log2(i / BaseIso))) > 0.1)];
        if (between.Length > 0)
        {
            yield return new PlanNotice(
                "iso-between-stops",
                null,
                $"ISO {string.Join(", ", between.Select(i => i.ToString(CultureInfo.InvariantCulture)))}: settings between full stops are often digital pushes or pulls of their neighbours.",
                "Nothing to do where you use them; full stops come first.");
        }

        foreach (IsoLayout layout in layouts.Where(l => request.From is { } from && from.IsoProfiles.All(p => p.Iso != l.Iso)))
        {
            yield return new PlanNotice(
                "iso-not-predicted",
                layout.Iso,
                Text($"ISO {layout.Iso} is not in the earlier profile: its exposures are laid out from the nearest one, and nothing is predicted for it."),
                "Nothing to do; this set will measure it.");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
