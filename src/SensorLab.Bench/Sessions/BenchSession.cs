using System.Diagnostics.CodeAnalysis;
using SensorLab.Assignment;
using SensorLab.Bench.Api;
using SensorLab.Debrief;
using SensorLab.Debriefs;
using SensorLab.Live;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Bench.Sessions;

/// <summary>The one set that is open: watched, told, measured and finished; what the page shows of it.</summary>
/// <remarks>
/// Frames are told in one loop and levels measured in another, so that a frame is spoken of while levels are at work. Looks,
/// measurements and the finish run side by side: each changes the state as it stands, and only while its own set is open.
/// </remarks>
internal sealed class BenchSession : IAsyncDisposable
{
    private readonly BenchOptions _options;
    private readonly Journal _journal;
    private readonly SemaphoreSlim _gate = new(1, 1);
    private readonly CancellationTokenSource _stop = new();
    private readonly Lock _stateLock = new();
    private TaskCompletionSource _changed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private OpenSet? _open;
    private Dictionary<string, double> _wanted = new(WantedFigures.Defaults, StringComparer.Ordinal);
    private Task _work = Task.CompletedTask;
    private Task _measuring = Task.CompletedTask;
    private Task _finishing = Task.CompletedTask;
    private CancellationTokenSource _finish = new();
    private int _chartSerial;
    private int _verdictSerial;
    private bool _isLookDue;
    private bool _isMeasureDue;

    public BenchSession(BenchOptions options)
    {
        _options = options;
        _journal = new Journal(options.DataFolder);
    }

    /// <summary>What the page shows.</summary>
    public BenchState State { get; private set; } = new() { Wanted = WantedFigures.Defaults };

    /// <summary>The set that is open; null for none.</summary>
    public OpenSet? Current => _open;

    /// <summary>All frames of the set, in the order in which they were taken.</summary>
    public IReadOnlyList<FrameBrief> Frames => [.. (_open?.Card?.Frames ?? []).Select(StateView.BriefOf)];

    /// <summary>What the page shows next to the state: links for phones.</summary>
    public Func<BenchState, ShareBrief?> Share { get; set; } = _ => null;

    /// <summary>A task that ends when the state changes next.</summary>
    public Task Changed
    {
        get
        {
            lock (_stateLock)
            {
                return _changed.Task;
            }
        }
    }

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
            Change(s => s with { Trouble = e.Message });
        }

        _work = Task.Run(() => WatchAsync(_stop.Token));
    }

    /// <summary>Opens a folder as it was left, if it was open before; else as a new set without a plan.</summary>
    public void OpenAgain(string folder)
    {
        JournalEntry entry = _journal.Of(LiveSet.PathOf(folder)) ?? new JournalEntry(folder, null, [], _wanted);
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
        _finish.Cancel();
        _gate.Wait(_stop.Token);
        try
        {
            _wanted = new Dictionary<string, double>(WantedFigures.Defaults.Select(d => KeyValuePair.Create(d.Key, entry.Wanted.TryGetValue(d.Key, out double own) && own > 0 ? own : d.Value)), StringComparer.Ordinal);
            _isLookDue = true;
            Change(_ =>
            {
                _open = new OpenSet(set, entry.Plan);
                return new BenchState { Phase = "shooting", Set = set.Folder, Plan = plan is null ? null : ShotGuide.Brief(plan) };
            });
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
        _finish.Cancel();
        _gate.Wait(_stop.Token);
        try
        {
            _journal.ForgetLast();
            Change(_ =>
            {
                _open = null;
                return new BenchState();
            });
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
            if (_open is { Card: { } card } set)
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
        if (!_wanted.ContainsKey(figure) || !(uncertainty > 0) || !double.IsFinite(uncertainty))
        {
            return false;
        }

        _wanted = new Dictionary<string, double>(_wanted, StringComparer.Ordinal) { [figure] = uncertainty };
        KeepJournal();
        Change(s => s);
        return true;
    }

    /// <summary>Begins to finish the set.</summary>
    /// <returns>Whether a set is open that is not being finished already.</returns>
    public bool Characterise()
    {
        lock (_stateLock)
        {
            if (_open is not { } set || State.Progress is not null)
            {
                return false;
            }

            Begin(s => s with { Phase = "measuring" }, stop => FinishAsync(set, stop));
            return true;
        }
    }

    /// <summary>Begins to tell how a finished assignment used the sensor.</summary>
    /// <param name="folder">The folder with the assignment's raw files.</param>
    /// <returns>Whether a finished set is open and nothing else is at work.</returns>
    public bool Debrief(string folder)
    {
        lock (_stateLock)
        {
            if (_open is not { Finished: { } finished } set || State.Progress is not null)
            {
                return false;
            }

            Begin(s => s, stop => DebriefAsync(set, finished, folder, stop));
            return true;
        }
    }

    /// <summary>Adds to a finished set what was made of it: a comparison, a bundle.</summary>
    /// <param name="set">The set.</param>
    /// <param name="finished">What it has now.</param>
    public void Add(OpenSet set, FinishedSet finished) => Change(set, s =>
    {
        set.Finished = finished;
        return s with { Profile = finished.Brief() };
    });

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _work;
        await _measuring;
        await _finishing;
        _finish.Dispose();
        _gate.Dispose();
        _stop.Dispose();
    }

    private void Begin(Func<BenchState, BenchState> change, Func<CancellationToken, Task> work)
    {
        Change(s => change(s) with { Progress = 0, Trouble = null });
        _finish.Dispose();
        _finish = CancellationTokenSource.CreateLinkedTokenSource(_stop.Token);
        CancellationToken stop = _finish.Token;
        _finishing = Task.Run(() => work(stop), CancellationToken.None);
    }

    private void KeepJournal()
    {
        if (_open is { } set)
        {
            _journal.Keep(new JournalEntry(set.Live.Folder, set.PlanDocument, [.. set.Live.Card.Metered.Select(m => new MeteredRequest(m.ExposureSeconds, m.Iso))], _wanted));
        }
    }

    private void Change(Func<BenchState, BenchState> change)
    {
        lock (_stateLock)
        {
            BenchState state = change(State) with { Wanted = _wanted, ChartSerial = _chartSerial };
            state = _open is { } set ? StateView.Of(state, set, _wanted) : state;
            State = state with { Share = Share(state) };
            TaskCompletionSource changed = _changed;
            _changed = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            changed.SetResult();
        }
    }

    /// <summary>Changes the state where the set is still the open one.</summary>
    private void Change(OpenSet set, Func<BenchState, BenchState> change)
    {
        lock (_stateLock)
        {
            if (set == _open)
            {
                Change(change);
            }
        }
    }

    private async Task WatchAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await LookAsync(stop);
                if (_isMeasureDue && _measuring.IsCompleted && State.Phase != "measuring" && _open is { Card: { } card } set)
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
            if (_open is not { } set || !(set.Live.Poll() | _isLookDue))
            {
                return;
            }

            if (!set.Live.IsThere)
            {
                Change(s => s with { IsThere = false, Trouble = "The folder is not there: put the card back, or choose another folder. Nothing is lost." });
                return;
            }

            _isLookDue = false;
            LiveCard card = await set.Live.LookAsync(stop);
            _isMeasureDue = true;
            Change(s => s with { IsThere = true, Trouble = null, Verdict = set.Take(card, ++_verdictSerial) ?? s.Verdict });
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            Change(s => s with { Trouble = e.Message });
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
                Change(set, s =>
                {
                    set.Figures = figures;
                    _chartSerial++;
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
            Change(set, s => s with { Trouble = e.Message });
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = "Whatever stops the finish is said, and the set stays open.")]
    private async Task FinishAsync(OpenSet set, CancellationToken stop)
    {
        try
        {
            await _measuring;
            var progress = new Progress(p => Change(set, s => s with { Progress = p }));
            SensorProfile profile = await set.Live.CharacteriseAsync(progress, stop);
            var finished = new FinishedSet(profile, ReportWriter.Files(profile, stop), _journal.ResultsOf(set.Live.Folder));
            finished.Keep(stop);
            Change(set, s =>
            {
                set.Finished = finished;
                _chartSerial++;
                return s with { Phase = "done", Progress = null, Profile = finished.Brief(), Findings = [.. profile.Findings.Select(StateView.BriefOf)] };
            });
        }
        catch (OperationCanceledException)
        {
            Change(set, s => s with { Phase = "shooting", Progress = null });
        }
        catch (FrameSetRefusedException refused)
        {
            set.Refused = refused.Findings;
            Change(set, s => s with { Phase = "shooting", Progress = null, Trouble = "The set gives no figures yet; every reason is listed." });
        }
        catch (Exception e)
        {
            Change(set, s => s with { Phase = "shooting", Progress = null, Trouble = e.Message });
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = "As for the finish: whatever stops it is said.")]
    private async Task DebriefAsync(OpenSet set, FinishedSet finished, string folder, CancellationToken stop)
    {
        try
        {
            var progress = new Progress(p => Change(set, s => s with { Progress = p }));
            DayDebrief day = await DebriefRun.RunAsync(finished.Profile, folder, _options.Characterisation.Jobs, progress, stop);
            Add(set, (set.Finished ?? finished) with { Debrief = DebriefWriter.Files(day) });
            Change(set, s => s with { Progress = null });
        }
        catch (OperationCanceledException)
        {
            Change(set, s => s with { Progress = null });
        }
        catch (Exception e)
        {
            Change(set, s => s with { Progress = null, Trouble = e.Message });
        }
    }

    /// <summary>Progress that is told at once: the usual one waits for a context that there is none of.</summary>
    private sealed class Progress(Action<double> told) : IProgress<CharacterisationProgress>
    {
        private int _told = -1;

        public void Report(CharacterisationProgress value)
        {
            int percent = value.FramesTotal == 0 ? 0 : 100 * value.FramesDone / value.FramesTotal;
            if (Interlocked.Exchange(ref _told, percent) != percent)
            {
                told(percent / 100.0);
            }
        }
    }
}
