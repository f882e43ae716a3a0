using System.Diagnostics.CodeAnalysis;
using SensorLab.Bench.Api;
using SensorLab.Debrief;
using SensorLab.Debriefs;
using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Bench.Sessions;

/// <summary>What takes its time and was asked for: the finish, a day's debrief. One at a time; closing the set stops it.</summary>
internal sealed class LongWork : IAsyncDisposable
{
    private readonly StateBoard _board;
    private readonly BenchOptions _options;
    private readonly Journal _journal;
    private readonly Lock _stopLock = new();
    private CancellationTokenSource _stop = new();
    private Task _work = Task.CompletedTask;

    public LongWork(StateBoard board, BenchOptions options, Journal journal)
    {
        _board = board;
        _options = options;
        _journal = journal;
    }

    /// <summary>Begins to finish the set.</summary>
    /// <param name="measuring">The measurement that is still at work.</param>
    /// <returns>Whether a set is open and nothing else is at work.</returns>
    public bool Characterise(Func<Task> measuring) => _board.TryBegin(set =>
    {
        Begin(set, s => s with { Phase = "measuring" }, s => s with { Phase = "shooting" }, stop => FinishAsync(set, measuring(), stop));
        return true;
    });

    /// <summary>Shows a set as finished where it was so in an earlier run of the program, and nothing has changed since.</summary>
    /// <param name="set">The set, which was just looked through.</param>
    /// <param name="cancellation">Stops the work.</param>
    public void Recall(OpenSet set, CancellationToken cancellation)
    {
        if (_journal.ResultsOf(set.Live.Folder) is { } folder && FinishedSet.Kept(folder, set.Live.Mark(), cancellation) is { } finished)
        {
            Show(set, finished with { KeyPath = _options.KeyPath }, cancellation);
        }
    }

    /// <summary>Begins to tell how a finished assignment used the sensor.</summary>
    /// <param name="folder">The folder with the assignment's raw files.</param>
    /// <returns>Whether a finished set is open and nothing else is at work.</returns>
    public bool Debrief(string folder) => _board.TryBegin(set =>
    {
        if (set.Finished is not { } finished)
        {
            return false;
        }

        Begin(set, s => s, s => s, stop => DebriefAsync(set, finished, folder, stop));
        return true;
    });

    /// <summary>Adds to a finished set what was made of it: a comparison, a bundle.</summary>
    /// <param name="set">The set.</param>
    /// <param name="change">What it has now.</param>
    public void Add(OpenSet set, Func<FinishedSet, FinishedSet> change) => _board.Change(set, s =>
    {
        set.Finished = set.Finished is { } finished ? change(finished) : null;
        return s with { Profile = set.Finished?.Brief() };
    });

    /// <summary>Stops what is at work.</summary>
    public void Cancel()
    {
        lock (_stopLock)
        {
            _stop.Cancel();
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        Cancel();
        await _work;
        _stop.Dispose();
    }

    [SuppressMessage("Design", "CA1031", Justification = "Whatever stops it is said, and the set stays open.")]
    private void Begin(OpenSet set, Func<BenchState, BenchState> begun, Func<BenchState, BenchState> stopped, Func<CancellationToken, Task> work)
    {
        _board.Change(s => begun(s) with { Progress = 0, Trouble = null });
        CancellationToken stop;
        lock (_stopLock)
        {
            _stop.Dispose();
            _stop = new CancellationTokenSource();
            stop = _stop.Token;
        }

        _work = Task.Run(
            async () =>
            {
                try
                {
                    await work(stop);
                    _board.Change(set, s => s with { Progress = null });
                }
                catch (OperationCanceledException)
                {
                    _board.Change(set, s => stopped(s) with { Progress = null });
                }
                catch (FrameSetRefusedException refused)
                {
                    set.Refused = refused.Findings;
                    _board.Change(set, s => stopped(s) with { Progress = null, Trouble = "The set gives no figures yet; every reason is listed." });
                }
                catch (Exception e)
                {
                    _board.Change(set, s => stopped(s) with { Progress = null, Trouble = e.Message });
                }
            },
            CancellationToken.None);
    }

    private async Task FinishAsync(OpenSet set, Task measuring, CancellationToken stop)
    {
        await measuring;
        SensorProfile profile = await set.Live.CharacteriseAsync(ProgressOf(set), stop);
        var finished = new FinishedSet(profile, ReportWriter.Files(profile, stop), _journal.ResultsOf(set.Live.Folder)) { KeyPath = _options.KeyPath };
        finished.Keep(set.Live.FinishedMark!, stop);
        Show(set, finished, stop);
    }

    private void Show(OpenSet set, FinishedSet finished, CancellationToken cancellation)
    {
        _board.Redraw(set, s =>
        {
            set.Finished = finished;
            return s with { Phase = "done", Profile = finished.Brief(), Findings = [.. finished.Profile.Findings.Select(StateView.BriefOf)] };
        });
        try
        {
            ShelfView? shelf = _options.Shelf?.Look(finished.Profile, cancellation);
            Add(set, f => f with { Shelf = shelf });
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The set is finished all the same.
            _board.Change(set, s => s with { Trouble = e.Message });
        }
    }

    private async Task DebriefAsync(OpenSet set, FinishedSet finished, string folder, CancellationToken stop)
    {
        DayDebrief day = await DebriefRun.RunAsync(finished.Profile, folder, _options.Characterisation.Jobs, ProgressOf(set), stop);
        IReadOnlyList<ReportFile> files = DebriefWriter.Files(day);
        Add(set, f => f with { Debrief = files });
    }

    private Progress ProgressOf(OpenSet set) => new(p => _board.Change(set, s => s with { Progress = p }));

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
