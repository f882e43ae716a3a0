namespace SensorLab.Planning.Plans;

/// <summary>Chooses the metered time of every ISO so that exposures, turns and moves of the lamp take the least time together.</summary>
/// <remarks>
/// Shortest way through the metered times, ISO by ISO: the cost of an ISO is its layout's time, the cost from one to the next a
/// move of the lamp wherever the light is another. Ties go to the shorter time.
/// </remarks>
internal sealed class ScheduleSearch
{
    // More light than there is may not be had: only where nothing else will do.
    private const double TooDimSeconds = 1e5;

    private readonly IsoLayoutBuilder _builder;
    private readonly MeteredExposure? _metered;

    /// <summary>Takes what is given.</summary>
    /// <param name="builder">Lays an ISO out.</param>
    /// <param name="metered">How the light stands; null where that is not known.</param>
    public ScheduleSearch(IsoLayoutBuilder builder, MeteredExposure? metered) => (_builder, _metered) = (builder, metered);

    /// <summary>The light of a layout in thirds of a stop against the light at the start; only differences mean something where that is not known.</summary>
    /// <param name="layout">The layout.</param>
    public int LightThirdsOf(IsoLayout layout)
    {
        MeteredExposure start = _metered ?? new MeteredExposure(new ShutterTime(0), 100);
        return start.Time.Thirds - IsoThirds(layout.Iso, start.Iso) - layout.Metered.Thirds;
    }

    /// <summary>The layouts of the ISOs, in their order; empty where no time can be metered.</summary>
    /// <param name="sensors">What is expected at each ISO.</param>
    public IReadOnlyList<IsoLayout> Find(IReadOnlyList<SensorExpectation> sensors)
    {
        ShutterTime[] times = [.. _builder.MeteringTimes];
        if (times.Length == 0)
        {
            return [];
        }

        var ways = new List<Way[]>();
        foreach (SensorExpectation sensor in sensors)
        {
            Way[]? before = ways.Count > 0 ? ways[^1] : null;
            ways.Add([.. times.Select(t => BestTo(_builder.Build(sensor, t), before))]);
        }

        return Follow(ways);
    }

    private Way BestTo(IsoLayout layout, Way[]? before)
    {
        int light = LightThirdsOf(layout);
        double own = layout.Seconds + (_metered is not null && light > 0 ? TooDimSeconds * light : 0);
        if (before is null)
        {
            return new Way(layout, own + (_metered is not null && light != 0 ? ShootingPace.LightMove : 0), -1);
        }

        int best = 0;
        double least = double.PositiveInfinity;
        for (int i = 0; i < before.Length; i++)
        {
            double cost = before[i].Seconds + (LightThirdsOf(before[i].Layout) == light ? 0 : ShootingPace.LightMove);
            if (cost < least)
            {
                (best, least) = (i, cost);
            }
        }

        return new Way(layout, own + least, best);
    }

    private static List<IsoLayout> Follow(List<Way[]> ways)
    {
        var layouts = new List<IsoLayout>();
        int at = ways[^1].Index().MinBy(w => w.Item.Seconds).Index;
        for (int i = ways.Count - 1; i >= 0; i--)
        {
            layouts.Insert(0, ways[i][at].Layout);
            at = ways[i][at].Before;
        }

        return layouts;
    }

    private static int IsoThirds(int iso, int start) => (int)Math.Round(3 * Math.Log2((double)iso / start));

    private readonly record struct Way(IsoLayout Layout, double Seconds, int Before);
}
