using SensorLab.Planning.Protocols;

namespace SensorLab.Planning.Plans;

/// <summary>Lays the exposures of one ISO out over the times that may be used.</summary>
internal sealed class IsoLayoutBuilder
{
    /// <summary>Stops that one reduction of the light takes off in the midst of an ISO: a common grey filter, or eight times the distance.</summary>
    public const int FilterStops = 6;

    /// <summary>The bracket's light lies at the upper edge of the meter's zero: a sixth of a stop above middle grey.</summary>
    public const double EdgeEv = 1.0 / 6;

    private const int ThirdsPerStop = 3;

    private const int MostFilters = 3;

    // A level may move to the next time that shows no pulses: as far as gaps between such times reach.
    private const int MostThirdsMoved = 2;

    // A missing end outweighs any hour.
    private const double MissingSeconds = 1e6;

    private readonly Protocol _protocol;
    private readonly ShutterTime[] _times;

    /// <summary>Takes the protocol and the times.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="times">The times that may be used with light, the shortest first, one or more.</param>
    public IsoLayoutBuilder(Protocol protocol, ShutterTime[] times) => (_protocol, _times) = (protocol, times);

    /// <summary>Times at whose click below there is one too.</summary>
    public IEnumerable<ShutterTime> MeteringTimes => _times.Where(t => _times.Contains(t.Longer(-1)));

    /// <summary>The layout around a metered time.</summary>
    /// <param name="sensor">What is expected of the sensor.</param>
    /// <param name="metered">One of <see cref="MeteringTimes"/>.</param>
    public IsoLayout Build(SensorExpectation sensor, ShutterTime metered)
    {
        var levels = new SortedDictionary<(int Filters, int Thirds), PlannedLevel>();
        int[] wanted = [.. WantedThirds(sensor)];
        List<int> missing = [];
        foreach ((int place, int thirds) in wanted.Index())
        {
            if (LevelAt(metered, thirds, isDarkest: place == wanted.Length - 1) is { } level)
            {
                levels[(level.Filters, level.Time.Thirds)] = level;
            }
            else
            {
                missing.Add(thirds);
            }
        }

        // The metered frames are levels too.
        levels.Remove((0, metered.Thirds));
        levels.Remove((0, metered.Longer(-1).Thirds));
        PlannedLevel[] all = [.. levels.Values.OrderBy(l => l.Ev)];
        double? brightest = missing.Any(t => t > 0) ? EvOf(missing.Max()) : null;
        double? darkest = missing.Any(t => t < 0) ? EvOf(missing.Min()) : null;
        return new IsoLayout(sensor.Iso, metered, all, brightest, darkest, SecondsOf(all, metered) + (MissingSeconds * missing.Count));
    }

    private static double EvOf(int thirds) => ((double)thirds / ThirdsPerStop) + EdgeEv;

    /// <summary>The levels wanted, in thirds of a stop from the metered time, the brightest first.</summary>
    private IEnumerable<int> WantedThirds(SensorExpectation sensor)
    {
        ProtocolBracket bracket = _protocol.Bracket;
        double shadow = sensor.EvAtSnr(bracket.ShadowSnr) ?? bracket.FineDownToEv;
        int darkest = (int)Math.Floor(ThirdsPerStop * (shadow - EdgeEv)) - 1;
        int step = ThirdsPerStop / bracket.FineStepsPerStop;
        int last = ThirdsPerStop * bracket.FineDownToEv;
        for (int thirds = ThirdsPerStop * bracket.BrightestEv; thirds >= last && thirds > darkest; thirds -= step)
        {
            yield return thirds;
        }

        int coarse = ThirdsPerStop * bracket.CoarseStepStops;
        for (int thirds = last - coarse; thirds >= darkest + ThirdsPerStop; thirds -= coarse)
        {
            yield return thirds;
        }

        yield return darkest;
    }

    private PlannedLevel? LevelAt(ShutterTime metered, int thirds, bool isDarkest)
    {
        for (int filters = 0; filters <= MostFilters; filters++)
        {
            ShutterTime want = metered.Longer(thirds + (filters * FilterStops * ThirdsPerStop));
            ShutterTime[] near = [.. _times.Where(t => Math.Abs(t.Thirds - want.Thirds) <= MostThirdsMoved && (!isDarkest || t <= want))];
            if (near.Length > 0 && (want >= _times[0] || !isDarkest))
            {
                ShutterTime time = near.MinBy(t => Math.Abs(t.Thirds - want.Thirds));
                double ev = ((double)(time.Thirds - metered.Thirds) / ThirdsPerStop) + EdgeEv - (filters * FilterStops);
                return new PlannedLevel(time, filters, ev);
            }

            if (want > _times[^1])
            {
                return null;
            }
        }

        return null;
    }

    private double SecondsOf(PlannedLevel[] levels, ShutterTime metered)
    {
        double frames = levels.Sum(l => (_protocol.Bracket.FramesPerLevel + Math.Max(0, _protocol.Looks.Count - 1)) * (l.Time.ExactSeconds + ShootingPace.Frame));
        double turns = levels.Length * ShootingPace.DialTurn;
        double filters = levels.Select(l => l.Filters).Where(f => f > 0).Distinct().Count() * ((2 * ShootingPace.Filter) + ShootingPace.LightStepReluctance);
        double longest = levels.Select(l => l.Time.ExactSeconds).DefaultIfEmpty(0).Max();
        double lit = _protocol.Metered.FramesPerEdge * 2 * (metered.ExactSeconds + ShootingPace.Frame) * (1 + _protocol.Lights.Count);
        return frames + turns + filters + lit + (_protocol.Dark.FramesAtLongest * longest);
    }
}
