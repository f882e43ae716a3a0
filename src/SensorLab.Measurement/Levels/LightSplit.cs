using System.Globalization;
using SensorLab.Frames;
using SensorLab.Law;
using SensorLab.Pixels;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Levels;

/// <summary>light-stepped: frames that nobody said were shot in another light, told from the means of a set's frames.</summary>
/// <remarks>
/// Frames of other lights than most get a light step of their own, so that no level holds two lights. Where it is the metered
/// frames that stand in two lights, or in another than the whole bracket, nobody but the user knows which one the meter saw: the
/// ISO is refused until the light step is written down.
/// </remarks>
public sealed class LightSplit
{
    /// <summary>Black is no steadier than this from frame to frame, in DN.</summary>
    private const double LeastUnsteadyDn = 0.1;

    /// <summary>Share of a dark photosite's noise by which black's mean may be off without anybody seeing it.</summary>
    private const double NoiseShare = 0.12;

    /// <summary>What makes two lights.</summary>
    internal const string Causes = "a filter or a lamp that was moved, or a lamp or shutter that varies by as much";

    /// <summary>Metered frames whose signals agree so well were metered, each in its light, in EV.</summary>
    private const double SameMeterEv = 0.75;

    private readonly Dictionary<SetFrame, string> _stepOf = new(ReferenceEqualityComparer.Instance);
    private readonly List<Finding> _findings = [];

    private LightSplit()
    {
    }

    /// <summary>Light steps by frame, for the frames that need one.</summary>
    public IReadOnlyDictionary<SetFrame, string> StepOf => _stepOf;

    /// <summary>What was found: a note where it was resolved, a refusal of the ISO where it was not.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>Looks for lights in a set's levels.</summary>
    /// <param name="levels">Statistics of all its levels.</param>
    public static LightSplit Of(IReadOnlyList<LevelStatistics> levels)
    {
        var split = new LightSplit();
        foreach (IGrouping<int, LevelStatistics> iso in levels.GroupBy(l => l.Level.Key.Iso))
        {
            split.Look(iso.Key, [.. iso]);
        }

        return split;
    }

    private void Look(int iso, LevelStatistics[] levels)
    {
        DarkMeans dark = new([.. levels.Where(l => l.Level.Key.Role == FrameRole.Dark).SelectMany(FrameMeans)]);
        LevelStatistics[] lit = [.. levels.Where(l => l.Level.Key.Role is FrameRole.Metered or FrameRole.Bracket)];
        if (dark.MeansDn.Count == 0 || lit.Length == 0)
        {
            return;
        }

        double black = dark.BlackDn;
        double noise = Math.Sqrt(levels.Where(l => l.Level.Key.Role == FrameRole.Dark).Select(l => l.Channels[0].Temporal?.Parts.PixelDn2 ?? 0).DefaultIfEmpty(0).Max());
        double unsteady = Math.Max(LeastUnsteadyDn, Math.Max(NoiseShare * noise, dark.ReachDn(Significance.LitBlack)));
        double range = lit.SelectMany(FrameMeans).Max() - black;

        // Without times nobody knows which frames follow each other.
        bool isOrdered = lit.All(l => l.Level.Frames.All(f => f.Raw.Metadata.CaptureTime is not null));
        foreach (IGrouping<string?, LevelStatistics> step in lit.GroupBy(l => l.Level.Key.LightStep))
        {
            (SetFrame Frame, FrameRole Role, LightReading Light)[] frames =
            [
                .. step.SelectMany(l => l.Level.Frames.Zip(FrameMeans(l), (f, m) => (Frame: f, l.Level.Key.Role, l.Level.Key.ExposureSeconds, Signal: m - black)))
                    .OrderBy(f => f.Frame, FrameOrder.Taken)
                    .Select((f, order) => (f.Frame, f.Role, new LightReading(isOrdered ? order : 0, f.ExposureSeconds, f.Signal, unsteady, range, ClipsSome: false))),
            ];
            Split(iso, step.Key, frames);
        }
    }

    private void Split(int iso, string? name, (SetFrame Frame, FrameRole Role, LightReading Light)[] frames)
    {
        var steps = LightSteps.Of([.. frames.Select(f => f.Light)]);
        if (steps.Groups.Count < 2)
        {
            return;
        }

        ILookup<int, (SetFrame Frame, FrameRole Role, LightReading Light)> byGroup = frames.Where(f => steps.GroupOf(f.Light) is not null).ToLookup(f => steps.GroupOf(f.Light)!.Value);
        int usual = byGroup.MaxBy(g => g.Count())!.Key;
        if (Contradiction(byGroup) is { } why)
        {
            _findings.Add(Found(iso, FindingSeverity.Refusal, why, steps, usual, byGroup));
            return;
        }

        var moved = byGroup.Where(g => g.Key != usual && !IsMeterInDoubt(g, frames)).OrderBy(g => g.Key).ToArray();
        foreach (var group in moved)
        {
            string step = string.Create(CultureInfo.InvariantCulture, $"{(name is null ? "light" : name + ", light")} {group.Key + 1}");
            foreach ((SetFrame frame, _, _) in group)
            {
                _stepOf[frame] = step;
            }
        }

        if (moved.Any(g => g.Any(f => f.Role == FrameRole.Bracket)))
        {
            _findings.Add(Found(iso, FindingSeverity.Note, "Each light was measured as a light step of its own.", steps, usual, byGroup));
        }
        else if (moved.Length < byGroup.Count - 1)
        {
            _findings.Add(Found(iso, FindingSeverity.Note, "They are metered frames, and middle grey is the mean of all.", steps, usual, byGroup));
        }
    }

    // Metered frames of one setting that differ a little are one reading in doubt, and no light step.
    private static bool IsMeterInDoubt(IEnumerable<(SetFrame Frame, FrameRole Role, LightReading Light)> group, (SetFrame Frame, FrameRole Role, LightReading Light)[] all)
    {
        (SetFrame Frame, FrameRole Role, LightReading Light)[] own = [.. group];
        return own.All(f => f.Role == FrameRole.Metered)
            && all.Except(own).Any(o => o.Role == FrameRole.Metered && own.Any(f => f.Light.ExposureSeconds == o.Light.ExposureSeconds));
    }

    /// <summary>Why nobody but the user can tell which light the meter saw; null where that is beyond doubt, or no frame was metered.</summary>
    private static string? Contradiction(ILookup<int, (SetFrame Frame, FrameRole Role, LightReading Light)> byGroup)
    {
        var metered = byGroup.Where(g => g.Any(f => f.Role == FrameRole.Metered)).ToArray();
        if (metered.Length == 1)
        {
            return metered[0].All(f => f.Role == FrameRole.Metered) ? "The metered frames stand in another light than the bracket." : null;
        }

        double[] signals = [.. metered.Select(g => g.Where(f => f.Role == FrameRole.Metered).Average(f => Math.Log2(Math.Max(f.Light.SignalDn, f.Light.UnsteadyDn))))];
        return signals.Length > 1 && signals.Max() - signals.Min() > SameMeterEv ? "The metered frames stand in several lights." : null;
    }

    private static Finding Found(int iso, FindingSeverity severity, string meaning, LightSteps steps, int usual, ILookup<int, (SetFrame Frame, FrameRole Role, LightReading Light)> byGroup)
    {
        (SetFrame Frame, double Stops)[] moved =
        [
            .. byGroup.Where(g => g.Key != usual).SelectMany(g => g.Select(f => (f.Frame, steps.Groups[g.Key].LightEv - steps.Groups[usual].LightEv))).OrderBy(f => f.Frame.File, StringComparer.Ordinal),
        ];
        double most = moved.MaxBy(f => Math.Abs(f.Stops)).Stops;
        string sizes = string.Join(" and ", byGroup.Where(g => g.Key != usual).Select(g => string.Create(CultureInfo.InvariantCulture, $"{steps.Groups[g.Key].LightEv - steps.Groups[usual].LightEv:+0.0;-0.0}")));
        return new Finding
        {
            Code = FindingCode.LightStepped,
            Severity = severity,
            Iso = iso,
            Frames = [.. moved.Select(f => f.Frame.File)],
            Size = Math.Abs(most),
            SizeUnit = "ev",
            Message = string.Create(CultureInfo.InvariantCulture, $"At ISO {iso} {moved.Length} frame{(moved.Length == 1 ? " was" : "s were")} shot in another light than the others at their exposures, by {sizes} stops: {Causes}. {meaning}"),
            Remedy = $"Name the light of these frames in frames.csv, one row each, as in \"file,lightStep\" and \"{moved[0].Frame.File},filter\"; sensorlab assign writes the rows.",
        };
    }

    private static IEnumerable<double> FrameMeans(LevelStatistics level)
    {
        ChannelStatistics[] green = [.. level.Channels.Where(c => c.Channel is SensorChannel.G1 or SensorChannel.G2 or SensorChannel.Y)];
        return Enumerable.Range(0, level.Level.Frames.Count).Select(f => green.Average(c => c.FrameMeansDn[f]));
    }
}

/// <summary>Means of an ISO's dark frames, before anything is fitted to them: how far a lit frame's black may be off.</summary>
/// <param name="MeansDn">Mean of each frame in DN, one frame or more.</param>
internal sealed record DarkMeans(IReadOnlyList<double> MeansDn)
{
    /// <summary>Chance that a lit frame's black lies further off, as few dark frames tell of it.</summary>
    private const double Beyond = 1e-4;

    /// <summary>Black in DN.</summary>
    public double BlackDn => MeansDn.Average();

    /// <summary>Standard deviation of a frame's black in DN; 0 of a single frame, which tells none.</summary>
    public double ScatterDn => MeansDn.Count < 2 ? 0 : Math.Sqrt(MeansDn.Sum(m => (m - BlackDn) * (m - BlackDn)) / (MeansDn.Count - 1));

    /// <summary>How far a lit frame's black may be off, in DN: two dark frames that happen to agree do not say that black stands still.</summary>
    /// <param name="deviations">Standard deviations that count as far where there are many dark frames.</param>
    public double ReachDn(double deviations) =>
        MeansDn.Count < 2 ? 0 : ScatterDn * Math.Max(deviations, StudentTail.Quantile(Beyond, MeansDn.Count - 1));
}
