using System.Diagnostics.CodeAnalysis;
using SensorLab.Assignment;
using SensorLab.Bench.Api;
using SensorLab.Live;
using SensorLab.Planning.Plans;

namespace SensorLab.Bench.Sessions;

/// <summary>The one set that is open: watched, told, measured and finished.</summary>
/// <remarks>
/// Frames are told in one loop and levels measured in another, so that a frame is spoken of while levels are at work. Looks,
/// measurements and the finish run side by side: each changes the state as it stands, and only while its own set is open.
/// </remarks>
internal sealed class BenchSession : IAsyncDisposable
{
    private readonly BenchOptions _options;
    private readonly Journal _journal;
    private readonly StateBoard _board = new();
    private readonly LongWork _long;
    private readonly SemaphoreSlim _gate = new(1, 1);
    private readonly CancellationTokenSource _stop = new();
    private Task _work = Task.CompletedTask;
    private Task _measuring = Task.CompletedTask;
    private bool _isLookDue;
    private bool _isMeasureDue;

    public BenchSession(BenchOptions options)
    {
        _options = options;
        _journal = new Journal(options.DataFolder);
        _long = new LongWork(_board, options, _journal);
    }

    /// <summary>What the page shows.</summary>
    public BenchState State => _board.State;

    /// <summary>The set that is open; null for none.</summary>
    public OpenSet? Current => _board.Open;

    /// <summary>All frames of the set, in the order in which they were taken.</summary>
    public IReadOnlyList<FrameBrief> Frames => [.. (Current?.Card?.Frames ?? []).Select(StateView.BriefOf)];

    /// <summary>What the page shows next to the state: links for phones.</summary>
    public Func<BenchState, ShareBrief?> Share
    {
        set => _board.Share = value;
    }

    /// <summary>A task that ends when the state changes next.</summary>
    public Task Changed => _board.Changed;

    /// <summary>Begins to watch; opens what was named, or what was open last.</summary>
    public void Start()
    {
        try
        {
            if (_options.Folder is { } folder)
            {
                OpenAgain(Path.GetFullPath(folder));
            }
            else if (_journal.Last() is { } last)
            {
                Reopen(last);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or PlanFormatException or ArgumentException)
        {
            _board.Change(s => s with { Trouble = e.Message });
        }

        _work = Task.Run(() => WatchAsync(_stop.Token));
    }

    /// <summary>Opens a folder as it was left, if it was open before; else as a new set without a plan.</summary>
    public void OpenAgain(string folder)
    {
        JournalEntry entry = _journal.Of(LiveSet.PathOf(folder)) ?? new JournalEntry(folder, null, [], _board.Wanted);
        Reopen(entry with { Folder = folder });
    }

    /// <summary>Opens a set.</summary>
    /// <param name="entry">Its folder, its plan, and what was wanted.</param>
    /// <exception cref="DirectoryNotFoundException">There is no such folder.</exception>
    /// <exception cref="PlanFormatException">The plan is none.</exception>
    /// <exception cref="ArgumentException">A metered reading is none, or the folder's name no path.</exception>
    /// <exception cref="IOException">The journal cannot be written.</exception>
    public void Reopen(JournalEntry entry)
    {
        if (!entry.IsSound)
        {
            throw new ArgumentException("A metered reading needs an exposure time and an ISO above zero.");
        }

        ShotPlan? plan = entry.Plan is null ? null : ShotPlanDocument.Read(System.Text.Encoding.UTF8.GetBytes(entry.Plan.ToJsonString()), "plan");
        var set = new LiveSet(entry.Folder, plan, [.. entry.Metered.Select(m => new MeteredSetting(m.ExposureSeconds, m.Iso))], _options.Characterisation, _journal.LevelsOf(LiveSet.PathOf(entry.Folder)));
        _long.Cancel();
        _gate.Wait(_stop.Token);
        try
        {
            var wanted = new Dictionary<string, double>(WantedFigures.Defaults.Select(d => KeyValuePair.Create(d.Key, entry.Wanted.TryGetValue(d.Key, out double own) && own > 0 ? own : d.Value)), StringComparer.Ordinal);
            _isLookDue = true;
            _board.Show(new OpenSet(set, entry.Plan), new BenchState { Phase = "shooting", Set = set.Folder, Plan = plan is null ? null : ShotGuide.Brief(plan) }, wanted);
            KeepJournal();
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <summary>Closes the set; it is remembered.</summary>
    public void Close()
    {
        _long.Cancel();
        _gate.Wait(_stop.Token);
        try
        {
            _journal.ForgetLast();
            _board.Show(null, new BenchState());
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <summary>Says what frames serve for.</summary>
    /// <exception cref="ArgumentException">There is no such role.</exception>
    /// <exception cref="IOException">frames.csv cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">frames.csv may not be written.</exception>
    public void Say(IReadOnlyList<string> files, string? role, string? lightStep)
    {
        _gate.Wait(_stop.Token);
        try
        {
            if (Current is { Card: { } card } set)
            {
                set.Live.Say(card, files, role, lightStep, _stop.Token);
                _isLookDue = true;
            }
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <summary>Sets how sure a figure is to be.</summary>
    /// <returns>Whether there is such a figure, and the goal one.</returns>
    public bool Want(string figure, double uncertainty)
    {
        if (!_board.Wanted.ContainsKey(figure) || !(uncertainty > 0) || !double.IsFinite(uncertainty))
        {
            return false;
        }

        _board.Want(figure, uncertainty);
        KeepJournal();
        return true;
    }

    /// <summary>Begins to finish the set.</summary>
    /// <returns>Whether a set is open and nothing else is at work.</returns>
    public bool Characterise() => _long.Characterise(() => _measuring);

    /// <summary>Begins to tell how a finished assignment used the sensor.</summary>
    /// <param name="folder">The folder with the assignment's raw files.</param>
    /// <returns>Whether a finished set is open and nothing else is at work.</returns>
    public bool Debrief(string folder) => _long.Debrief(folder);

    /// <summary>Adds to a finished set what was made of it: a comparison, a bundle.</summary>
    /// <param name="set">The set.</param>
    /// <param name="change">What it has now.</param>
    public void Add(OpenSet set, Func<FinishedSet, FinishedSet> change) => _long.Add(set, change);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _work;
        await _measuring;
        await _long.DisposeAsync();
        _gate.Dispose();
        _stop.Dispose();
    }

    private void KeepJournal()
    {
        if (Current is { } set)
        {
            _journal.Keep(new JournalEntry(set.Live.Folder, set.PlanDocument, [.. set.Live.Card.Metered.Select(m => new MeteredRequest(m.ExposureSeconds, m.Iso))], _board.Wanted));
        }
    }

    private async Task WatchAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await LookAsync(stop);
                if (_isMeasureDue && _measuring.IsCompleted && State.Phase != "measuring" && Current is { Card: { } card } set)
                {
                    _isMeasureDue = false;
                    _measuring = Task.Run(() => MeasureAsync(set, card, stop), CancellationToken.None);
                }

                await Task.Delay(_options.PollInterval, stop);
            }
            catch (OperationCanceledException) when (stop.IsCancellationRequested)
            {
                return;
            }
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = "A file that the program stumbles over must not end the evening: it is said, and the watch goes on.")]
    private async Task LookAsync(CancellationToken stop)
    {
        await _gate.WaitAsync(stop);
        try
        {
            if (Current is not { } set || !(set.Live.Poll() | _isLookDue))
            {
                return;
            }

            if (!set.Live.IsThere)
            {
                _board.Change(s => s with { IsThere = false, Trouble = "The folder is not there: put the card back, or choose another folder. Nothing is lost." });
                return;
            }

            _isLookDue = false;
            bool isFirst = set.Card is null;
            LiveCard card = await set.Live.LookAsync(stop);
            _isMeasureDue = true;
            _board.Take(set, card);
            if (isFirst)
            {
                _long.Recall(set, stop);
            }
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            _board.Change(s => s with { Trouble = e.Message });
        }
        finally
        {
            _gate.Release();
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = "As for a look: what cannot be measured now is said, and the watch goes on.")]
    private async Task MeasureAsync(OpenSet set, LiveCard card, CancellationToken stop)
    {
        try
        {
            if (await set.Live.MeasureAsync(card, stop) is { } figures)
            {
                _board.Redraw(set, s =>
                {
                    set.Figures = figures;
                    return s;
                });
            }
        }
        catch (OperationCanceledException)
        {
            // The bench ends.
        }
        catch (Exception e)
        {
            _board.Change(set, s => s with { Trouble = e.Message });
        }
    }
}
