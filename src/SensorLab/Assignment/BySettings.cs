using System.Globalization;
using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Sets;

namespace SensorLab.Assignment;

/// <summary>Tells frames without a plan: dark ones by their pixels, metered ones by what the user read off the meter, all others as bracket.</summary>
internal sealed class BySettings
{
    /// <summary>A ratio of channels that lies so far off the usual is another lamp's, in EV; filters keep theirs to about a tenth.</summary>
    private const double OtherColourEv = 0.25;

    /// <summary>Frames of one lamp agree so well in colour, in EV.</summary>
    private const double SameColourEv = 0.1;

    /// <summary>What is engraved lies off what is exposed by a tenth of a stop at most; the dial's next time is a third away.</summary>
    private const double SameTimeEv = 0.13;

    /// <summary>Fewer lit frames than these make no bracket.</summary>
    private const int FewestLit = 3;

    /// <summary>Fewer frames than these in a light of their own may be of anything plain: a sky, a wall.</summary>
    private const int FewestOfLight = 3;

    /// <summary>No light: red and blue stand to green as without a lamp, within this in EV.</summary>
    private const double ColourlessEv = 0.15;

    /// <summary>Middle grey lies so far below white, in stops; wherever a body's meter puts it.</summary>
    private const double GreyLowestEv = -5.5;
    private const double GreyHighestEv = -1.5;

    private readonly IReadOnlyList<MeteredSetting> _metered;
    private readonly IReadOnlyList<Reading> _readings;
    private readonly IReadOnlyList<Reading> _settled;
    private readonly List<AssignmentQuestion> _questions;

    private BySettings(IReadOnlyList<MeteredSetting> metered, IReadOnlyList<Reading> settled, IReadOnlyList<Reading> readings, List<AssignmentQuestion> questions) =>
        (_metered, _settled, _readings, _questions) = (metered, settled, readings, questions);

    /// <summary>Tells frames.</summary>
    /// <param name="metered">Where the spot meter read zero.</param>
    /// <param name="settled">Frames whose use the user said.</param>
    /// <param name="readings">The frames that are not told yet, in the order in which they were taken.</param>
    /// <param name="questions">What has to be asked.</param>
    public static void Tell(IReadOnlyList<MeteredSetting> metered, IReadOnlyList<Reading> settled, IReadOnlyList<Reading> readings, List<AssignmentQuestion> questions) =>
        new BySettings(metered, settled, readings, questions).Tell();

    private void Tell()
    {
        (double Red, double Blue)? usual = UsualColour();
        foreach (IGrouping<int, Reading> iso in _readings.Concat(_settled).GroupBy(r => r.Seen!.Iso))
        {
            Dark([.. iso], usual);
            Reading[] lit = [.. iso.Where(r => r.IsOpen)];
            if (lit.Length < FewestLit && !iso.Any(r => r.Use?.Role is not null))
            {
                foreach (Reading stray in lit)
                {
                    stray.Take(FrameUse.None, string.Create(CultureInfo.InvariantCulture, $"Alone at ISO {iso.Key}: no bracket and no dark frames there. A test shot."));
                }

                continue;
            }

            OtherLamps(lit, usual);
            Lit(iso.Key, [.. lit.Where(r => r.IsOpen)]);
        }

        NameLamps();
    }

    private (double Red, double Blue)? UsualColour()
    {
        (double Red, double Blue)[] all = [.. _readings.Concat(_settled).Select(r => r.Seen!.Colour).OfType<(double, double)>()];
        return all.Length == 0 ? null : (all.Select(c => c.Red).Order().ElementAt(all.Length / 2), all.Select(c => c.Blue).Order().ElementAt(all.Length / 2));
    }

    private void Dark(IReadOnlyList<Reading> iso, (double Red, double Blue)? usual)
    {
        foreach (Reading reading in iso.Where(r => r.IsOpen))
        {
            SeenFrame frame = reading.Seen!;
            if (frame.IsDark)
            {
                reading.Take(new FrameUse(FrameRole.Dark), string.Create(CultureInfo.InvariantCulture, $"No light in it: its mean lies {frame.SignalDn:0.00} DN from black."));
            }
            else if (usual is { } lamp && Distance((0, 0), lamp) > 2 * ColourlessEv && frame.Colour is { } own && Distance(own, (0, 0)) < ColourlessEv && frame.SignalDn < SeenFrame.MostDarkSignal * frame.RangeDn)
            {
                reading.Take(new FrameUse(FrameRole.Dark), string.Create(CultureInfo.InvariantCulture, $"A dark signal of {frame.SignalDn:0.0} DN without the lamp's colour: a long exposure with the cap on."));
            }
            else if (frame.Colour is null && usual is null && LooksLikeDarkSignal(frame, iso))
            {
                reading.Doubt(string.Create(CultureInfo.InvariantCulture, $"A signal of {frame.SignalDn:0.0} DN in {frame.Seconds:0.###} s: the dark signal of a long exposure, or hardly any light."));
            }
        }

        Reading[] doubtful = [.. iso.Where(r => !r.IsOpen && !r.IsSure)];
        if (doubtful.Length > 0)
        {
            _questions.Add(new AssignmentQuestion([.. doubtful.Select(r => r.Frame.File)], "Was the cap on the lens? Give these frames the role dark or bracket in frames.csv, and assign again."));
        }
    }

    // Without colours: a signal that grows with time, far below what the same time gives under the lamp.
    private static bool LooksLikeDarkSignal(SeenFrame frame, IReadOnlyList<Reading> iso) =>
        frame.SignalDn < SeenFrame.MostDarkSignal * frame.RangeDn && frame.Seconds >= 1
        && iso.Any(r => r.Seen!.Seconds <= frame.Seconds && r.Seen.IsClipped);

    private void OtherLamps(Reading[] lit, (double Red, double Blue)? usual)
    {
        foreach (Reading reading in lit)
        {
            if (usual is { } lamp && reading.Seen!.Colour is { } own && Distance(own, lamp) > OtherColourEv)
            {
                bool isMetered = IsMetered(reading.Seen);
                if (isMetered)
                {
                    reading.Take(new FrameUse(FrameRole.Light, Light: string.Empty), string.Create(CultureInfo.InvariantCulture, $"Metered under another lamp: red and blue stand to green {own.Red - lamp.Red:+0.0;-0.0} and {own.Blue - lamp.Blue:+0.0;-0.0} EV otherwise."));
                }
                else
                {
                    reading.Doubt("Another lamp's colour, at an exposure that was not metered.");
                }
            }
        }

        Reading[] doubtful = [.. lit.Where(r => !r.IsOpen && !r.IsSure)];
        if (doubtful.Length > 0)
        {
            _questions.Add(new AssignmentQuestion(
                [.. doubtful.Select(r => r.Frame.File)],
                "These were shot under another lamp than most frames. Where they were metered, say so (--metered SECONDS@ISO); else give them a role in frames.csv, or none, and assign again."));
        }
    }

    private void NameLamps()
    {
        var lamps = new List<((double Red, double Blue) Colour, List<Reading> Frames)>();
        foreach (Reading reading in _readings.Where(r => r.Is(FrameRole.Light)))
        {
            (double Red, double Blue) own = reading.Seen!.Colour!.Value;
            int at = lamps.FindIndex(l => Distance(l.Colour, own) < SameColourEv);
            if (at < 0)
            {
                lamps.Add((own, []));
                at = lamps.Count - 1;
            }

            lamps[at].Frames.Add(reading);
        }

        foreach ((int number, var lamp) in lamps.Index())
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"lamp {number + 2}");
            lamp.Frames.ForEach(r => r.Take(r.Use! with { Light = name }, r.Why));
            _questions.Add(new AssignmentQuestion([.. lamp.Frames.Select(r => r.Frame.File)], $"What is this light called? It stands as \"{name}\" in the column light of frames.csv; any name will do."));
        }
    }

    private void Lit(int iso, Reading[] lit)
    {
        Reading[] candidates = [.. lit.Where(r => IsMetered(r.Seen!))];
        var steps = LightSteps.Of([.. lit.Select(r => r.Seen!.Light)]);
        int[] greys = [.. candidates.Select(r => r.Seen!).Where(IsGrey).Select(f => steps.GroupOf(f.Light)).OfType<int>().Distinct().Order()];
        foreach (Reading reading in candidates.Where(r => greys.Length > 0 && steps.GroupOf(r.Seen!.Light) == greys[0]))
        {
            reading.Take(new FrameUse(FrameRole.Metered), string.Create(CultureInfo.InvariantCulture, $"The meter read zero at {reading.Seen!.Seconds:0.######} s and ISO {iso}."));
        }

        DoubtLaterVisits([.. lit.Where(r => r.Is(FrameRole.Metered))], lit);
        foreach (Reading reading in lit.Where(r => r.IsOpen))
        {
            reading.Take(new FrameUse(FrameRole.Bracket), "A plain, lit field that was not metered.");
        }

        Reading[] settled = [.. _settled.Where(r => r.Seen!.Iso == iso && (r.Is(FrameRole.Metered) || r.Is(FrameRole.Bracket)))];
        HashSet<SeenFrame> metered = [.. lit.Concat(settled).Where(r => r.Is(FrameRole.Metered)).Select(r => r.Seen!)];
        if (metered.Count == 0)
        {
            AskMetered(iso, lit);
        }

        var lights = new IsoLights([.. lit.Concat(settled).Select(r => r.Seen!).OrderBy(f => f.Order)], metered.Contains, _ => null);
        foreach (Reading reading in lights.IsOne ? [] : lit.Concat(settled.Where(r => r.Frame.Said is null)))
        {
            if (!lights.Tells(reading.Seen!))
            {
                if (!reading.Frame.IsLightSaid)
                {
                    reading.Doubt("Several lights at this ISO, and its own signal does not tell in which it was shot.");
                }
            }
            else if (reading.Frame.Filed is null && lights.DifferenceOf(reading.Seen!) is { } alone && lights.CountOf(reading.Seen!) < FewestOfLight)
            {
                reading.Doubt($"It shows {alone} than the metered frames, and hardly another frame does: a filter, or a picture of something else.");
            }
            else if (lights.DifferenceOf(reading.Seen!) is { } difference)
            {
                reading.Take(reading.Use! with { LightStep = lights.NameOf(reading.Seen!) }, $"{reading.Why} It shows {difference} than the metered frames.");
            }
        }

        Reading[] doubtful = [.. lit.Concat(settled).Where(r => !r.IsSure)];
        if (doubtful.Length > 0)
        {
            _questions.Add(new AssignmentQuestion([.. doubtful.Select(r => r.Frame.File)], "In which light were these shot? Give them the role bracket and their light step in frames.csv (blank for the metered light), or none where they show something else, and assign again."));
        }
    }

    /// <summary>Without colours nothing tells another lamp: frames metered again after the bracket may have been shot under one.</summary>
    private void DoubtLaterVisits(Reading[] metered, Reading[] lit)
    {
        if (metered.Length == 0 || metered.Any(r => r.Seen!.Colour is not null))
        {
            return;
        }

        int? away = lit.Where(r => !r.Is(FrameRole.Metered) && r.Seen!.Order > metered[0].Seen!.Order).Select(r => (int?)r.Seen!.Order).FirstOrDefault();
        Reading[] later = [.. metered.Where(r => r.Seen!.Order > away)];
        foreach (Reading reading in later)
        {
            reading.Doubt("Metered once more after the bracket: under the same lamp, or another.");
        }

        if (later.Length > 0)
        {
            _questions.Add(new AssignmentQuestion(
                [.. later.Select(r => r.Frame.File)],
                "Were these metered under the bracket's own lamp? Give them the role metered in frames.csv if so; else light, with the lamp's name in the column light; and assign again."));
        }
    }

    private void AskMetered(int iso, Reading[] lit)
    {
        if (lit.Length == 0)
        {
            return;
        }

        Reading first = lit[0];
        string time = ShutterTime.Nearest(first.Seen!.Seconds)?.Label ?? first.Seen.Seconds.ToString(CultureInfo.InvariantCulture);
        string reason = _metered.Any(m => m.Iso == iso) ? "The exposure that --metered names has no frame in light that can be middle grey" : "Nothing says where the spot meter read zero";
        _questions.Add(new AssignmentQuestion(
            [.. lit.Select(r => r.Frame.File)],
            string.Create(CultureInfo.InvariantCulture, $"At which exposure did the spot meter read zero on the field at ISO {iso}? {reason}. If it was the first lit one: --metered {time}@{iso}; or give those frames the role metered in frames.csv.")));
    }

    private bool IsMetered(SeenFrame frame) => _metered.Any(m => m.Iso == frame.Iso && IsSameTime(m.ExposureSeconds, frame));

    private static bool IsSameTime(double seconds, SeenFrame frame) => Math.Abs(Math.Log2(seconds / frame.Seconds)) < SameTimeEv;

    private static bool IsGrey(SeenFrame frame) =>
        !frame.IsDark && Math.Log2(Math.Max(frame.SignalDn, 1e-9) / frame.RangeDn) is >= GreyLowestEv and <= GreyHighestEv;

    private static double Distance((double Red, double Blue) one, (double Red, double Blue) other) =>
        Math.Max(Math.Abs(one.Red - other.Red), Math.Abs(one.Blue - other.Blue));
}
