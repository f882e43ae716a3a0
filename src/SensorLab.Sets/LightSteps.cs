namespace SensorLab.Sets;

/// <summary>The lights of one ISO, told by the signal alone: frames of equal settings whose signals differ were shot in two.</summary>
/// <remarks>
/// A frame's light is its signal over its exposure time. Lights are groups of frames without a gap: drift and flicker leave none.
/// A difference counts where some setting was shot in both lights; from <see cref="FarEv"/> on, also where black cannot be what
/// makes it (a shutter's fastest times are never off by so much), and where the brighter light clips at a
/// setting at which the darker one does not.
/// </remarks>
public sealed class LightSteps
{
    /// <summary>Neighbouring lights are a gap of so much apart, in EV; the smallest step that anyone takes on purpose is a third, and less is flicker, which is compensated.</summary>
    internal const double GapEv = 0.2;

    /// <summary>No shutter is off by so much, in EV.</summary>
    private const double FarEv = 0.6;

    /// <summary>A clipped frame shows more light than an unclipped one of its setting from so much on, in EV: no flicker reaches over half the range.</summary>
    private const double OutshoneEv = 0.5;

    /// <summary>How well a difference has to show at each setting, in EV.</summary>
    private const double AgreementEv = 0.12;

    /// <summary>Lights are so many times the usual difference between neighbours of one setting apart, at least: flicker is no step.</summary>
    private const double GapOverFlicker = 4;

    /// <summary>At one setting a difference shows where it is so many times what black may make of it.</summary>
    private const double ShownOverSlack = 2;

    private readonly Dictionary<LightReading, int> _groupOf = new(ReferenceEqualityComparer.Instance);
    private readonly HashSet<LightReading> _doubtful = new(ReferenceEqualityComparer.Instance);

    private LightSteps(IReadOnlyList<LightGroup> groups) => Groups = groups;

    /// <summary>The lights, the brightest first.</summary>
    public IReadOnlyList<LightGroup> Groups { get; }

    /// <summary>Finds the lights of an ISO.</summary>
    /// <param name="lit">Its frames with light under one lamp.</param>
    public static LightSteps Of(IReadOnlyList<LightReading> lit)
    {
        LightReading[] told = [.. lit.Where(f => f.IsTold).OrderByDescending(f => f.LightEv)];
        double gap = Math.Max(GapEv, GapOverFlicker * Flicker(told));
        var groups = new List<List<LightReading>>();
        foreach (LightReading frame in told)
        {
            if (groups.Count == 0 || groups[^1][^1].LightEv - frame.LightEv > gap)
            {
                groups.Add([]);
            }

            groups[^1].Add(frame);
        }

        LightReading[] clipped = [.. lit.Where(f => f.IsClipped)];
        while (FirstUnproven(groups, clipped) is { } at)
        {
            groups[at].AddRange(groups[at + 1]);
            groups.RemoveAt(at + 1);
        }

        AddUnseen(lit, groups);
        var steps = new LightSteps([.. groups.OrderByDescending(Median).Select(g => new LightGroup(Median(g), [.. g.OrderBy(f => f.Order)]))]);
        steps.Place(lit);
        return steps;
    }

    /// <summary>The place of a frame's light in <see cref="Groups"/>; null where nothing tells it.</summary>
    /// <param name="frame">One of the frames given.</param>
    public int? GroupOf(LightReading frame) => _groupOf.TryGetValue(frame, out int group) ? group : null;

    /// <summary>Whether a frame's light is a guess: its own signal does not tell, and its neighbours in time disagree.</summary>
    /// <param name="frame">One of the frames given.</param>
    public bool IsDoubtful(LightReading frame) => _doubtful.Contains(frame);

    /// <summary>The usual difference between frames of one setting that follow each other, in EV.</summary>
    private static double Flicker(LightReading[] told)
    {
        double[] differences =
        [
            .. told.GroupBy(f => f.ExposureSeconds).SelectMany(g =>
            {
                LightReading[] inTime = [.. g.OrderBy(f => f.Order)];
                return inTime.Zip(inTime.Skip(1), (a, b) => Math.Abs(a.LightEv - b.LightEv));
            }).Order(),
        ];
        return differences.Length == 0 ? 0 : differences[differences.Length / 2];
    }

    private static int? FirstUnproven(List<List<LightReading>> groups, LightReading[] clipped)
    {
        for (int i = 0; i + 1 < groups.Count; i++)
        {
            double apart = Median(groups[i]) - Median(groups[i + 1]);
            if (!IsFar(groups[i], groups[i + 1]) && !IsShown(groups[i], groups[i + 1], apart) && !(apart >= FarEv && IsOutshone(groups[i + 1], clipped)))
            {
                return i;
            }
        }

        return null;
    }

    // The frame with the largest signal tells a light best.
    private static bool IsFar(List<LightReading> brighter, List<LightReading> darker) =>
        brighter.MaxBy(f => f.SignalDn)!.LeastEv - darker.MaxBy(f => f.SignalDn)!.MostEv >= FarEv;

    /// <summary>Whether a frame clips at a setting of a light that does not clip there, by more than chance near the clip.</summary>
    private static bool IsOutshone(List<LightReading> light, LightReading[] clipped) =>
        light.Any(f => clipped.Any(c => IsSameSetting(c.ExposureSeconds, f.ExposureSeconds) && c.LightEv - f.LightEv > OutshoneEv + (ShownOverSlack * f.SlackEv)));

    private static bool IsShown(List<LightReading> brighter, List<LightReading> darker, double apartEv)
    {
        (double Difference, double Slack)[] shared =
        [
            .. brighter
                .GroupBy(f => f.ExposureSeconds)
                .Select(g => (Own: g.ToArray(), Other: darker.Where(d => IsSameSetting(d.ExposureSeconds, g.Key)).ToArray()))
                .Where(p => p.Other.Length > 0)
                .Select(p => (p.Own.Average(f => f.LightEv) - p.Other.Average(f => f.LightEv), p.Own.Concat(p.Other).Max(f => f.SlackEv))),
        ];
        return shared.Any(d => d.Difference > ShownOverSlack * d.Slack)
            && (apartEv >= FarEv || shared.All(d => Math.Abs(d.Difference - apartEv) < AgreementEv + d.Slack));
    }

    private static bool IsSameSetting(double one, double other) => Level.IsSameExposure(Math.Min(one, other), Math.Max(one, other));

    /// <summary>Frames that can belong to no light that is told: too dark or too bright for all of them, hence shot in others.</summary>
    private static void AddUnseen(IReadOnlyList<LightReading> lit, List<List<LightReading>> groups)
    {
        double[] known = [.. groups.Select(Median)];
        LightReading[] foreign = known.Length == 0 ? [] : [.. lit.Where(f => !f.IsTold && !known.Any(k => f.MayBeAt(k, FarEv)))];
        foreach (List<LightReading> side in new[] { foreign.Where(f => f.IsClipped).ToList(), [.. foreign.Where(f => !f.IsClipped)] }.Where(g => g.Count > 0))
        {
            groups.Add(side);
        }
    }

    private void Place(IReadOnlyList<LightReading> lit)
    {
        for (int group = 0; group < Groups.Count; group++)
        {
            foreach (LightReading frame in Groups[group].Readings)
            {
                _groupOf[frame] = group;
            }
        }

        LightReading[] inTime = [.. _groupOf.Keys.OrderBy(f => f.Order)];
        foreach (LightReading frame in lit.Where(f => !_groupOf.ContainsKey(f)).ToArray())
        {
            int[] possible = [.. Enumerable.Range(0, Groups.Count).Where(g => frame.MayBeAt(Groups[g].LightEv, FarEv))];
            if (possible.Length == 0)
            {
                continue;
            }

            int? before = Near(inTime.LastOrDefault(f => f.Order < frame.Order));
            int? after = Near(inTime.FirstOrDefault(f => f.Order > frame.Order));

            // Neighbours in time that agree tell it, or the one that there is; else it is of the light that most frames have.
            int usual = possible.MaxBy(g => Groups[g].Readings.Count);
            _groupOf[frame] = before is not null && after is not null && before != after ? usual : before ?? after ?? usual;
            if (possible.Length > 1 && before is not null && after is not null && before != after)
            {
                _doubtful.Add(frame);
            }

            int? Near(LightReading? neighbour) => neighbour is not null && possible.Contains(_groupOf[neighbour]) ? _groupOf[neighbour] : null;
        }
    }

    private static double Median(List<LightReading> frames)
    {
        double[] sorted = [.. frames.Select(f => f.LightEv).Order()];
        return sorted[sorted.Length / 2];
    }
}

/// <summary>Frames of one ISO that were shot in one light.</summary>
/// <param name="LightEv">log2 of the light: signal per second.</param>
/// <param name="Readings">The frames that tell it, in the order in which they were taken.</param>
public sealed record LightGroup(double LightEv, IReadOnlyList<LightReading> Readings);
