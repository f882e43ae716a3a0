using SensorLab.Bench.Api;
using SensorLab.Live;

namespace SensorLab.Bench.Sessions;

/// <summary>What the page shows, and the set that it shows it of: changed by several at once, one after the other.</summary>
internal sealed class StateBoard
{
    private readonly Lock _lock = new();
    private TaskCompletionSource _changed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private int _chartSerial;
    private int _verdictSerial;

    /// <summary>What the page shows.</summary>
    public BenchState State { get; private set; } = new() { Wanted = WantedFigures.Defaults };

    /// <summary>The set that is open; null for none.</summary>
    public OpenSet? Open { get; private set; }

    /// <summary>How sure figures are to be.</summary>
    public IReadOnlyDictionary<string, double> Wanted { get; private set; } = WantedFigures.Defaults;

    /// <summary>What the page shows next to the state: links for phones.</summary>
    public Func<BenchState, ShareBrief?> Share { get; set; } = _ => null;

    /// <summary>A task that ends when the state changes next.</summary>
    public Task Changed
    {
        get
        {
            lock (_lock)
            {
                return _changed.Task;
            }
        }
    }

    /// <summary>Shows another set.</summary>
    /// <param name="set">The set; null for none.</param>
    /// <param name="state">What is known of it at once.</param>
    /// <param name="wanted">How sure its figures are to be; null for what was wanted last.</param>
    public void Show(OpenSet? set, BenchState state, IReadOnlyDictionary<string, double>? wanted = null)
    {
        lock (_lock)
        {
            (Open, Wanted) = (set, wanted ?? Wanted);
            Change(_ => state);
        }
    }

    /// <summary>Sets how sure a figure is to be.</summary>
    public void Want(string figure, double uncertainty)
    {
        lock (_lock)
        {
            Wanted = new Dictionary<string, double>(Wanted, StringComparer.Ordinal) { [figure] = uncertainty };
            Change(s => s);
        }
    }

    /// <summary>Changes the state.</summary>
    public void Change(Func<BenchState, BenchState> change)
    {
        lock (_lock)
        {
            BenchState state = change(State) with { Wanted = Wanted, ChartSerial = _chartSerial };
            state = Open is { } set ? StateView.Of(state, set, Wanted) : state;
            State = state with { Share = Share(state) };
            TaskCompletionSource changed = _changed;
            _changed = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            changed.SetResult();
        }
    }

    /// <summary>Changes the state where a set is still the open one.</summary>
    public void Change(OpenSet set, Func<BenchState, BenchState> change)
    {
        lock (_lock)
        {
            if (set == Open)
            {
                Change(change);
            }
        }
    }

    /// <summary>Takes a look at the open set, and says what is to be said of frames that are new.</summary>
    public void Take(OpenSet set, LiveCard card) =>
        Change(set, s => s with { IsThere = true, Trouble = null, Verdict = set.Take(card, ++_verdictSerial) ?? s.Verdict });

    /// <summary>Takes what makes its charts new.</summary>
    public void Redraw(OpenSet set, Func<BenchState, BenchState> change) => Change(set, s =>
    {
        _chartSerial++;
        return change(s);
    });

    /// <summary>Does something where nothing else is at work on the open set.</summary>
    /// <param name="begin">Begins it; the state shows then that it is at work.</param>
    /// <returns>Whether it was begun.</returns>
    public bool TryBegin(Func<OpenSet, bool> begin)
    {
        lock (_lock)
        {
            return Open is { } set && State.Progress is null && begin(set);
        }
    }
}
