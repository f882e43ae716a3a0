using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>Collects steps in shooting order, says what changes from one to the next, and keeps count of turns, moves and time.</summary>
/// <param name="mains">The mains; null for light that does not pulse.</param>
internal sealed class StepList(MainsLight? mains)
{
    /// <summary>What dark frames need.</summary>
    public const string CapOn = "Cap on the lens, eyepiece covered, the room dimmed.";

    private readonly List<PlanStep> _steps = [];
    private readonly List<string> _actions = [];
    private int? _iso;
    private ShutterTime? _time;

    /// <summary>The steps.</summary>
    public IReadOnlyList<PlanStep> Steps => _steps;

    /// <summary>Turns of a dial so far.</summary>
    public int DialTurns { get; private set; }

    /// <summary>Moves of lamp or filter so far.</summary>
    public int LightMoves { get; private set; }

    /// <summary>Seconds so far.</summary>
    public double Seconds { get; private set; }

    /// <summary>Something to do before the next step.</summary>
    /// <param name="action">What.</param>
    /// <param name="seconds">How long it takes.</param>
    public void Do(string action, double seconds)
    {
        _actions.Add(action);
        Seconds += seconds;
    }

    /// <summary>A move of lamp or filter before the next step.</summary>
    /// <inheritdoc cref="Do"/>
    public void MoveLight(string action, double seconds)
    {
        Do(action, seconds);
        LightMoves++;
    }

    /// <summary>Frames of one setting.</summary>
    /// <param name="setting">All but number, times and actions.</param>
    /// <param name="time">The exposure time.</param>
    public void Shoot(PlanStep setting, ShutterTime time)
    {
        List<string> dials = [];
        if (setting.Iso != _iso)
        {
            dials.Add(string.Create(CultureInfo.InvariantCulture, $"ISO {setting.Iso}"));
            Seconds += ShootingPace.IsoChange;
            DialTurns++;
        }

        if (time != _time)
        {
            dials.Add($"shutter {time.Label}");
            Seconds += ShootingPace.DialTurn;
            DialTurns++;
        }

        (_iso, _time) = (setting.Iso, time);
        _steps.Add(setting with
        {
            Number = _steps.Count + 1,
            Shutter = time.Label,
            ExposureSeconds = time.EngravedSeconds,
            RipplePercent = mains is { } light && setting.Role != RoleName.Dark ? Math.Round(100 * light.RippleAt(time), 3) : null,
            Dials = dials.Count > 0 ? string.Join(", ", dials) : null,
            Actions = [.. _actions],
        });
        _actions.Clear();
        Seconds += setting.Frames * (time.ExactSeconds + ShootingPace.Frame);
    }
}
