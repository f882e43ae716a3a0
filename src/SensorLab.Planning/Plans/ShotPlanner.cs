using System.Globalization;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>Plans what to shoot, in shooting order.</summary>
public sealed class ShotPlanner
{
    private static readonly string[] FilterNames = ["far", "farther", "farthest"];

    private readonly PlanRequest _request;
    private readonly Protocol _protocol;
    private readonly BodyExpectation _body;
    private readonly StepList _list;
    private readonly IsoLayoutBuilder _builder;
    private readonly ScheduleSearch _search;
    private readonly bool _isPulsing;
    private readonly string? _firstLook;
    private int? _lightThirds;
    private int? _startThirds;

    private ShotPlanner(PlanRequest request)
    {
        _request = request;
        _protocol = request.Protocol;
        _firstLook = _protocol.Looks.Count > 0 ? _protocol.Looks[0] : null;
        _body = BodyExpectation.Of(request.From);
        _list = new StepList(request.Mains);
        ShutterTime[] all = [.. request.Shutter.Times];
        ShutterTime[] steady = request.Mains is { } mains ? [.. all.Where(mains.IsSteadyAt)] : all;
        _isPulsing = !steady.Any(t => steady.Contains(t.Longer(-1)));
        _builder = new IsoLayoutBuilder(_protocol, _isPulsing ? all : steady);
        _search = new ScheduleSearch(_builder, request.Metered);
        _lightThirds = request.Metered is null ? null : 0;
        _startThirds = _lightThirds;
    }

    /// <summary>Plans a shot list.</summary>
    /// <param name="request">What it is for.</param>
    /// <returns>The plan; what cannot be reached is among its notices.</returns>
    /// <exception cref="PlanUsageException">The request names an ISO twice or below 1, or a shutter range with fewer than two times.</exception>
    public static ShotPlan Plan(PlanRequest request)
    {
        if (request.Isos.Any(i => i < 1) || request.Isos.Distinct().Count() != request.Isos.Count)
        {
            throw new PlanUsageException("ISOs are whole numbers from 1 on, each named once.");
        }

        if (request.Shutter.Times.Count() < 2)
        {
            throw new PlanUsageException("The shutter's range holds fewer than two exposure times: name the fastest first, as in 1/8000..30.");
        }

        return new ShotPlanner(request).Plan();
    }

    private ShotPlan Plan()
    {
        int[] isos = [.. (_request.Isos.Count > 0 ? _request.Isos : _protocol.Isos).Order()];
        IReadOnlyList<IsoLayout> layouts = _search.Find([.. isos.Select(_body.At)]);
        foreach (IsoLayout layout in layouts)
        {
            AddLit(layout);
        }

        foreach (string light in _protocol.Lights)
        {
            AddLight(light, layouts);
        }

        AddDarks(layouts);
        var summary = new PlanSummary(
            _list.Steps.Sum(s => s.Frames),
            (int)Math.Ceiling(_list.Seconds / 60),
            Math.Round(_list.Steps.Sum(s => s.Frames) * _body.FrameBytes / 1e9, 1),
            _list.DialTurns,
            _list.LightMoves);
        var notices = new PlanNotices(_request, _isPulsing, layouts, _search, _list.Steps);
        return new ShotPlan
        {
            Protocol = _protocol.Name,
            ProtocolVersion = _protocol.Version,
            Title = _protocol.Title,
            Purpose = _protocol.Purpose,
            Isos = isos,
            MainsHz = _request.Mains?.FrequencyHz,
            Summary = summary,
            Sets = _protocol.Sets,
            Kit = [.. KitOf(layouts)],
            Preparations = [StartOf(layouts), $"To lay out: {string.Join("; ", KitOf(layouts))}.", .. _protocol.Preparations],
            Cautions = _protocol.Cautions,
            Assumes = [.. notices.Assumes(_body.Source)],
            Notices = [.. notices.All()],
            IsForTypicalBody = _body.IsTypical,
            Prediction = [.. isos.Select(_body.At).Where(s => s.IsKnown).Select(s => FigurePredictor.Of(_protocol, _body, s, _list.Steps)).OfType<PlanPrediction>()],
            Steps = _list.Steps,
        };
    }

    private string StartOf(IReadOnlyList<IsoLayout> layouts)
    {
        IsoLayout first = layouts[0];
        string light = Text($"Light: such that the spot meter reads zero at {first.Metered.Label} and ISO {first.Iso}");
        int thirds = _search.LightThirdsOf(first);
        return _request.Metered is not { } start || thirds == 0
            ? light + "."
            : Text($"{light}; from {start.Time.Label} at ISO {start.Iso} that is {StopsText(thirds)}.");
    }

    /// <summary>What has to be at hand: nobody looks for a filter in the midst of an ISO.</summary>
    private IEnumerable<string> KitOf(IReadOnlyList<IsoLayout> layouts)
    {
        int filters = layouts.SelectMany(l => l.Levels).Select(l => l.Filters).DefaultIfEmpty(0).Max();
        if (filters > 0)
        {
            yield return Text($"{(filters == 1 ? "a grey filter" : Text($"{filters} grey filters"))} of {LightReduction.Filter(IsoLayoutBuilder.FilterStops)} for the lens{(filters > 1 ? ", to be put before each other" : string.Empty)}");
        }

        int[] lights = [.. layouts.Select(_search.LightThirdsOf)];
        if (lights.Max() - lights.Min() is > 0 and var thirds)
        {
            yield return $"room or grey filters for the lamp: over the ISOs {LightReduction.Less(thirds / 3.0)}";
        }

        foreach (string light in _protocol.Lights)
        {
            yield return $"the light called {light}";
        }

        yield return "the lens's cap and something dark for the eyepiece";
        yield return "a remote control or the self-timer";
    }

    private void AddLit(IsoLayout layout)
    {
        int thirds = _search.LightThirdsOf(layout);
        if (_list.Steps.Count > 0 && _lightThirds is { } before && before != thirds)
        {
            _list.MoveLight(Text($"Move the lamp, or change the filter before the lens: {StopsText(thirds - before)} than before. Don't dim."), ShootingPace.LightMove);
        }

        _lightThirds = thirds;
        _startThirds ??= thirds;
        AddMetered(layout.Iso, layout.Metered, RoleName.Metered, null);
        PlannedLevel[] plain = [.. layout.Levels.Where(l => l.Filters == 0)];
        foreach (PlannedLevel level in plain.Where(l => l.Time < layout.Metered).OrderByDescending(l => l.Time.Thirds).Concat(plain.Where(l => l.Time > layout.Metered).OrderBy(l => l.Time.Thirds)))
        {
            AddLevel(layout, level, _firstLook, _protocol.Bracket.FramesPerLevel);
        }

        AddFurtherLooks(layout, plain);
        AddFiltered(layout);
    }

    private void AddMetered(int iso, ShutterTime time, string role, string? light)
    {
        int frames = _protocol.Metered.FramesPerEdge;
        _list.Do("Turn the light up from too dark until the spot meter hovers between 0 and +1/3 (by distance, not by a dimmer); then leave it.", ShootingPace.Trim);
        PlanStep setting = Setting(role, iso, frames) with { LaterCounts = true, Light = light, LightStops = light is null ? StopsOf(0) : null, Look = light is null ? _firstLook : null };
        _list.Shoot(setting with { Ev = Rounded(IsoLayoutBuilder.EdgeEv) }, time);
        _list.Do("The same light: the meter now hovers between 0 and -1/3.", 0);
        _list.Shoot(setting with { Ev = Rounded(-IsoLayoutBuilder.EdgeEv) }, time.Longer(-1));
    }

    private void AddLevel(IsoLayout layout, PlannedLevel level, string? look, int frames) => _list.Shoot(
        Setting(RoleName.Bracket, layout.Iso, frames) with
        {
            Ev = Rounded(level.Ev),
            LightStep = level.Filters == 0 ? null : FilterNames[level.Filters - 1],
            LightStops = StopsOf(level.Filters),
            Look = look,
        },
        level.Time);

    private void AddFurtherLooks(IsoLayout layout, PlannedLevel[] plain)
    {
        // Every sweep begins where the one before it ended.
        PlannedLevel[] byTime = [.. plain.OrderByDescending(l => l.Time.Thirds)];
        foreach (string look in _protocol.Looks.Skip(1))
        {
            _list.Do($"Picture setting: {look}.", ShootingPace.Look);
            foreach (PlannedLevel level in byTime)
            {
                AddLevel(layout, level, look, 1);
            }

            Array.Reverse(byTime);
        }
    }

    private void AddFiltered(IsoLayout layout)
    {
        int last = 0;
        foreach (IGrouping<int, PlannedLevel> part in layout.Levels.Where(l => l.Filters > 0).GroupBy(l => l.Filters).OrderBy(g => g.Key))
        {
            int stops = part.Key * IsoLayoutBuilder.FilterStops;
            _list.MoveLight(
                Text($"Grey filter of {LightReduction.Filter(stops)} before the lens; don't dim: a dimmed lamp pulses harder. This is light step \"{FilterNames[part.Key - 1]}\"; sensorlab assign finds its frames."),
                ShootingPace.Filter);
            foreach (PlannedLevel level in part.OrderByDescending(l => l.Time.Thirds))
            {
                AddLevel(layout, level, _firstLook, _protocol.Bracket.FramesPerLevel);
            }

            last = part.Key;
        }

        if (last > 0)
        {
            _list.MoveLight("Filter off, or the lamp back to its place.", ShootingPace.Filter);
        }
    }

    private void AddLight(string light, IReadOnlyList<IsoLayout> layouts)
    {
        foreach (IsoLayout layout in layouts)
        {
            if (layout == layouts[0])
            {
                _list.MoveLight($"Light the field with {light} alone, as evenly as before; nothing else is changed. Frames go to light/{light}.", ShootingPace.OtherLight);
            }

            AddMetered(layout.Iso, layout.Metered, RoleName.Light, light);
        }
    }

    private void AddDarks(IReadOnlyList<IsoLayout> layouts)
    {
        _list.Do(StepList.CapOn, ShootingPace.Cap);
        bool isRising = false;
        foreach (IsoLayout layout in layouts.Reverse())
        {
            var counts = new SortedDictionary<int, int>
            {
                [layout.Times.Min(t => t.Thirds)] = _protocol.Dark.FramesAtShortest,
            };
            int longest = layout.Times.Max(t => t.Thirds);
            counts[longest] = Math.Max(counts.GetValueOrDefault(longest), _protocol.Dark.FramesAtLongest);
            foreach (ShutterTime rung in _protocol.Dark.LadderSeconds.Select(s => ShutterTime.Nearest(s)!.Value).Where(t => t >= _request.Shutter.Fastest && t <= _request.Shutter.Slowest))
            {
                counts[rung.Thirds] = Math.Max(counts.GetValueOrDefault(rung.Thirds), _protocol.Dark.FramesPerRung);
            }

            // The ladder climbs; else each ISO begins at the time where the one before it ended.
            foreach ((int thirds, int frames) in isRising || _protocol.Dark.LadderSeconds.Count > 0 ? counts : counts.Reverse())
            {
                _list.Shoot(Setting(RoleName.Dark, layout.Iso, frames), new ShutterTime(thirds));
            }

            isRising = !isRising;
        }
    }

    // Without a metered exposure light is counted from the first ISO's.
    private double StopsOf(int filters) => Rounded((((_lightThirds ?? 0) - (_startThirds ?? 0)) / 3.0) - (filters * IsoLayoutBuilder.FilterStops));

    private static PlanStep Setting(string role, int iso, int frames) =>
        new() { Number = 0, Role = role, Iso = iso, Shutter = string.Empty, ExposureSeconds = 0, Frames = frames, Actions = [] };

    private static string StopsText(int thirds)
    {
        double stops = Math.Abs(thirds) / 3.0;
        return thirds < 0 ? LightReduction.Less(stops) : Text($"{stops:0.#} stop{(Math.Abs(thirds) == 3 ? string.Empty : "s")} more light");
    }

    private static double Rounded(double number) => Math.Round(number, 3);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
