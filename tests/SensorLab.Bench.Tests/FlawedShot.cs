using SensorLab.Bench.Api;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Bench.Tests;

/// <summary>A frame of an evening with something wrong, in the place of a good one.</summary>
internal sealed class FlawedShot
{
    /// <summary>More light than a lamp's own unsteadiness, in EV: a window.</summary>
    private const double WindowEv = 0.4;

    /// <summary>The length of the last tags of a frame's file.</summary>
    private const int TailBytes = 134;

    private readonly string _flaw;
    private readonly PlanStep _step;
    private readonly RehearsedEvening _evening;

    public FlawedShot(string flaw, RehearsedEvening evening)
    {
        (_flaw, _evening) = (flaw, evening);
        _step = evening.Plan.Steps.First(s => flaw switch
        {
            "dark lit" => s.Role == RoleName.Dark && s.ExposureSeconds > 1,
            "metered clipped" => s.Role == RoleName.Metered,
            _ => s.Role == RoleName.Bracket && s.Ev is < -2.5 and > -5,
        });
        At = evening.IndexOf(_step) + 1;
    }

    /// <summary>Every flaw, as xunit takes them.</summary>
    public static TheoryData<string> All => ["metered clipped", "window", "flicker", "wrong iso", "wrong time", "cut off", "passed over", "copy", "other body", "dark lit"];

    /// <summary>How many good frames come before it.</summary>
    public int At { get; }

    /// <summary>The name of its file.</summary>
    public string Name => RehearsedEvening.NameOf(_flaw == "passed over" ? At + 1 : At);

    /// <summary>Its file, as the camera, or a card that was pulled too soon, leaves it.</summary>
    public byte[] File()
    {
        PlannedFrame good = _evening.Frames[At];
        return _flaw switch
        {
            "cut off" => _evening.FileOf(good)[..^TailBytes],
            "copy" => _evening.FileOf(_evening.Frames[At - 1]),
            "passed over" => _evening.FileOf(_evening.Frames[At + 1]),
            "window" => _evening.FileOf(RehearsedEvening.Lit(good, WindowEv)),
            "flicker" => _evening.FileOf(RehearsedEvening.Lit(good, -0.1)),
            "wrong iso" => _evening.FileOf(RehearsedEvening.Saying(good, iso: 200)),
            "wrong time" => _evening.FileOf(RehearsedEvening.Saying(RehearsedEvening.Lit(good, 1.0 / 3), seconds: good.Raw.Metadata.ExposureSeconds * Math.Pow(2, 1.0 / 3))),
            "dark lit" => _evening.FileOf(good with { Exposure = _evening.Frames[_evening.IndexOf(_evening.Plan.Steps.First(s => s.Role == RoleName.Metered))].Exposure }),
            "metered clipped" => _evening.FileOf(RehearsedEvening.Lit(good, 9)),
            "other body" => _evening.FileOf(good with { Raw = good.Raw with { Metadata = good.Raw.Metadata with { SerialNumber = "30992" } } }),
            _ => throw new ArgumentOutOfRangeException(nameof(_flaw), _flaw, "There is no such flaw."),
        };
    }

    /// <summary>Whether the frame has been told, rightly or wrongly.</summary>
    public bool IsTold(BenchState state) => state.Frames.Refused > 0 || state.Latest.Any(f => f.File == Name);

    /// <summary>Whether what is wrong was said, with its remedy.</summary>
    public bool IsSaid(BenchState state) => _flaw switch
    {
        "cut off" => state is { Frames.Refused: 1, Verdict: { IsGood: false, Remedy.Length: > 0 } },
        "passed over" => state.Next is { IsPassedOver: true } next && next.Step == _step.Number,
        "copy" or "other body" => FrameOf(state).Role == "none" && state.Next!.Step == _step.Number,
        _ => FrameOf(state).Flaws is { Count: > 0 } flaws && flaws.All(f => f.Remedy.Length > 0) && !state.Verdict!.IsGood,
    };

    private FrameBrief FrameOf(BenchState state) => state.Latest.Single(f => f.File == Name);
}
