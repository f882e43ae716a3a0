using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json.Nodes;
using SensorLab.Assignment;
using SensorLab.Bench.Api;
using SensorLab.Live;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Bench.Sessions;

/// <summary>The one set that is open: watched, told, measured and finished; what the page shows of it.</summary>
/// <remarks>Frames are told in one loop and levels measured in another, so that a frame is spoken of while levels are at work.</remarks>
internal sealed class BenchSession : IAsyncDisposable
{
    /// <summary>The name of the lamp's chart, which is of the frames and not of the profile.</summary>
    public const string LampName = "lamp";

    private const int LatestShown = 12;

    private readonly BenchOptions _options;
    private readonly Journal _journal;
    private readonly SemaphoreSlim _gate = new(1, 1);
    private readonly CancellationTokenSource _stop = new();
    private readonly Lock _stateLock = new();
    private TaskCompletionSource _changed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private LiveSet? _set;
    private JsonObject? _planDocument;
    private LiveCard? _card;
    private LiveFigures? _figures;
    private Dictionary<string, double> _wanted = new(WantedFigures.Defaults, StringComparer.Ordinal);
    private HashSet<string> _known = [];
    private Task _work = Task.CompletedTask;
    private Task _measuring = Task.CompletedTask;
    private CancellationTokenSource? _finishing;
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

    /// <summary>All frames of the set, in the order in which they were taken.</summary>
    public IReadOnlyList<FrameBrief> Frames => [.. (_card?.Frames ?? []).Select(BriefOf)];

    /// <summary>The plan that is open; null for none.</summary>
    public ShotPlan? Plan => _set?.Card.Plan;

    /// <summary>The plan's document; null for none.</summary>
    public JsonObject? PlanDocument => _planDocument;

    /// <summary>The profile to draw charts from: the finished one, else what the levels so far give.</summary>
    public SensorProfile? Profile => Finished?.Profile ?? _figures?.Profile;

    /// <summary>What the finish gave; null before.</summary>
    public FinishedSet? Finished { get; private set; }

    /// <summary>The lamp's light as the frames tell it, and whether they have times.</summary>
    public (IReadOnlyList<LampReading> Readings, bool HasTimes) Lamp
    {
        get
        {
            LiveFrame[] frames = [.. _card?.Frames ?? []];
            bool hasTimes = frames.Length > 0 && frames.All(f => f.TakenAt is not null);
            return ([.. frames.Index().Where(f => f.Item is { LightEv: not null, Iso: not null }).Select(f => new LampReading(f.Item.Iso!.Value, hasTimes ? (f.Item.TakenAt!.Value - frames[0].TakenAt!.Value).TotalMinutes : f.Index, f.Item.LightEv!.Value))], hasTimes);
        }
    }

    /// <summary>What the page shows next to the state: links for phones.</summary>
    public Func<BenchState, ShareBrief?> Share { get; set; } = _ => null;

    /// <summary>The open folder; null for none.</summary>
    public string? Folder => _set?.Folder;

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
                Open(Path.GetFullPath(folder));
            }
            else if (_journal.Last() is { } last)
            {
                Reopen(last);
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or PlanFormatException)
        {
            Publish(s => s with { Trouble = e.Message });
        }

        _work = Task.Run(() => WatchAsync(_stop.Token));
    }

    /// <summary>Opens a folder as it was left, if it was open before; else as a new set without a plan.</summary>
    public void Open(string folder)
    {
        JournalEntry entry = _journal.Of(new LiveSet(folder, null, [], _options.Characterisation).Folder) ?? new JournalEntry(folder, null, [], _wanted);
        Reopen(entry with { Folder = folder });
    }

    /// <summary>Opens a set.</summary>
    /// <param name="entry">Its folder, its plan, and what was wanted.</param>
    /// <exception cref="DirectoryNotFoundException">There is no such folder.</exception>
    /// <exception cref="PlanFormatException">The plan is none.</exception>
    /// <exception cref="IOException">The journal cannot be written.</exception>
    public void Reopen(JournalEntry entry)
    {
        ShotPlan? plan = entry.Plan is null ? null : ShotPlanDocument.Read(System.Text.Encoding.UTF8.GetBytes(entry.Plan.ToJsonString()), "plan");
        var set = new LiveSet(entry.Folder, plan, [.. entry.Metered.Select(m => new MeteredSetting(m.ExposureSeconds, m.Iso))], _options.Characterisation);
        _finishing?.Cancel();
        _gate.Wait(_stop.Token);
        try
        {
            (_set, _planDocument, _card, _figures, Finished, _known) = (set, entry.Plan, null, null, null, []);
            _wanted = new Dictionary<string, double>(WantedFigures.Defaults.Select(d => KeyValuePair.Create(d.Key, entry.Wanted.TryGetValue(d.Key, out double own) && own > 0 ? own : d.Value)), StringComparer.Ordinal);
            _isLookDue = true;
            Publish(_ => new BenchState { Phase = "shooting", Set = set.Folder, Plan = plan is null ? null : ShotGuide.Brief(plan), Wanted = _wanted });
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
        _finishing?.Cancel();
        _gate.Wait(_stop.Token);
        try
        {
            (_set, _planDocument, _card, _figures, Finished, _known) = (null, null, null, null, null, []);
            _journal.ForgetLast();
            Publish(_ => new BenchState { Wanted = _wanted });
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
            if (_set is not null && _card is not null)
            {
                _set.Say(_card, files, role, lightStep, _stop.Token);
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
        Publish(Shown);
        return true;
    }

    /// <summary>Begins to finish the set.</summary>
    /// <returns>Whether a set is open that is not being finished already.</returns>
    public bool Characterise()
    {
        if (_set is null || State.Phase == "measuring")
        {
            return false;
        }

        Publish(s => s with { Phase = "measuring", Progress = 0, Trouble = null });
        _finishing = CancellationTokenSource.CreateLinkedTokenSource(_stop.Token);
        _ = Task.Run(() => FinishAsync(_set, _finishing.Token));
        return true;
    }

    /// <summary>Shows a comparison with an earlier profile.</summary>
    public void Show(FinishedSet finished)
    {
        Finished = finished;
        Publish(s => s with { Profile = finished.Brief() });
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await _work;
        await _measuring;
        _finishing?.Dispose();
        _gate.Dispose();
        _stop.Dispose();
    }

    private void KeepJournal()
    {
        if (_set is not null)
        {
            _journal.Keep(new JournalEntry(_set.Folder, _planDocument, [.. _set.Card.Metered.Select(m => new MeteredRequest(m.ExposureSeconds, m.Iso))], _wanted));
        }
    }

    // Looks, measurements and the finish run side by side: each changes the state as it stands, or one's words would be lost under another's.
    private void Publish(Func<BenchState, BenchState> change)
    {
        lock (_stateLock)
        {
            BenchState state = change(State);
            State = state with { Share = Share(state) };
            TaskCompletionSource changed = _changed;
            _changed = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            changed.SetResult();
        }
    }

    private async Task WatchAsync(CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            try
            {
                await LookAsync(stop);
                if (_isMeasureDue && _measuring.IsCompleted && State.Phase != "measuring")
                {
                    _isMeasureDue = false;
                    _measuring = Task.Run(() => MeasureAsync(_set, _card, stop), CancellationToken.None);
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
            if (_set is not { } set || !(set.Poll() | _isLookDue))
            {
                return;
            }

            if (!set.IsThere)
            {
                Publish(s => s with { IsThere = false, Trouble = "The folder is not there: put the card back, or choose another folder. Nothing is lost." });
                return;
            }

            _isLookDue = false;
            _card = await set.LookAsync(stop);
            _isMeasureDue = true;
            Verdict? verdict = VerdictOn(_card);
            Publish(s => Shown(s with { IsThere = true, Trouble = null, Verdict = verdict ?? s.Verdict }));
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            Publish(s => s with { Trouble = e.Message });
        }
        finally
        {
            _gate.Release();
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = "As for a look: what cannot be measured now is said, and the watch goes on.")]
    private async Task MeasureAsync(LiveSet? set, LiveCard? card, CancellationToken stop)
    {
        if (set is null || card is null)
        {
            return;
        }

        try
        {
            LiveFigures? figures = await set.MeasureAsync(card, stop);
            if (figures is not null && set == _set)
            {
                _figures = figures;
                _chartSerial++;
                Publish(Shown);
            }
        }
        catch (OperationCanceledException)
        {
            // The bench ends.
        }
        catch (Exception e)
        {
            Publish(s => s with { Trouble = e.Message });
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = "Whatever stops the finish is said, and the set stays open.")]
    private async Task FinishAsync(LiveSet set, CancellationToken stop)
    {
        try
        {
            await _measuring;
            var progress = new Progress(p => Publish(s => s.Phase == "measuring" ? s with { Progress = p } : s));
            SensorProfile profile = await set.CharacteriseAsync(progress, stop);
            IReadOnlyList<ReportFile> report = ReportWriter.Files(profile, stop);
            if (set != _set)
            {
                return;
            }

            Finished = new FinishedSet(profile, report, _journal.ResultsOf(set.Folder));
            Finished.Keep(stop);
            _chartSerial++;
            Publish(s => Shown(s) with { Phase = "done", Progress = null, Profile = Finished.Brief(), Findings = [.. profile.Findings.Select(BriefOf)] });
        }
        catch (OperationCanceledException)
        {
            Publish(s => s with { Phase = "shooting", Progress = null });
        }
        catch (FrameSetRefusedException refused)
        {
            Publish(s => s with { Phase = "shooting", Progress = null, Trouble = "The set gives no figures yet; every reason is listed.", Findings = [.. refused.Findings.Select(BriefOf)] });
        }
        catch (Exception e)
        {
            Publish(s => s with { Phase = "shooting", Progress = null, Trouble = e.Message });
        }
    }

    private Verdict? VerdictOn(LiveCard card)
    {
        LiveFrame[] fresh = [.. card.Frames.Where(f => !_known.Contains(f.File))];
        string[] refused = [.. card.Refused.Where(f => !_known.Contains(f))];
        _known = [.. card.Frames.Select(f => f.File), .. card.Refused];
        if (fresh.Length + refused.Length == 0)
        {
            return null;
        }

        if (refused.Length > 0)
        {
            return new Verdict(++_verdictSerial, false, $"{refused[0]} cannot be read.", "Copy it from the card again; if that does not help, shoot the frame again.");
        }

        LiveFlaw? worst = fresh.SelectMany(f => f.Flaws).OrderByDescending(f => f.ShootAgain).FirstOrDefault();
        return worst is not null
            ? new Verdict(++_verdictSerial, false, worst.Message, worst.Remedy)
            : new Verdict(++_verdictSerial, true, fresh.Length == 1 ? "Good." : string.Create(CultureInfo.InvariantCulture, $"{fresh.Length} frames, all good."), null);
    }

    private BenchState Shown(BenchState state)
    {
        if (_set is not { } set || _card is not { } card)
        {
            return state with { Wanted = _wanted };
        }

        SensorProfile? profile = _figures?.Profile;
        ShotPlan? plan = set.Card.Plan;
        IEnumerable<int> shotIsos = card.Frames.Where(f => f.Role != "none").Select(f => f.Iso).OfType<int>().Distinct().Order();
        int[] isos = [.. plan?.Isos ?? shotIsos];
        (IsoGoal Goal, IReadOnlyList<PlanStep> Further)[] goals = [.. isos.Select(iso => WantedFigures.Judge(iso, profile, card.Missing, _wanted))];
        HashSet<int> enough = [.. goals.Where(g => g.Goal.IsEnough).Select(g => g.Goal.Iso)];
        PlanStep[] missing = [.. card.Missing.Where(s => !enough.Contains(s.Iso))];
        int? latestStep = card.Frames.LastOrDefault(f => f.Step is not null && f.Role != "none")?.Step;
        LiveFrame[] newest = [.. card.Frames.Reverse()];
        Finding[] findings = [.. card.Findings, .. _figures?.Findings ?? []];
        return state with
        {
            Frames = new FrameCounts(card.Frames.Count + card.Refused.Count, card.Frames.Count(f => f.Role != "none"), card.Refused.Count),
            Next = plan is null ? null : ShotGuide.Next(plan, missing, [.. goals.SelectMany(g => g.Further)], latestStep),
            Levels = LevelList.Of(plan, card, profile, enough),
            Figures = profile is null ? [] : WantedFigures.Of(profile, _wanted),
            Isos = [.. goals.Select(g => g.Goal)],
            Findings = state.Phase == "done" ? state.Findings : [.. findings.DistinctBy(f => (f.Code, f.Iso, f.Message)).Select(BriefOf)],
            Latest = [.. newest.Where((f, i) => i < LatestShown || f.Flaws.Count > 0).Select(BriefOf)],
            Questions = [.. card.Questions.Select(q => new QuestionBrief(q.Files, q.Question))],
            Waiting = card.Waiting,
            Charts = Profile is { } drawn ? [.. ReportCharts.Names(drawn), LampName] : [],
            ChartSerial = _chartSerial,
            LevelsMeasured = _figures?.LevelsMeasured ?? 0,
            Wanted = _wanted,
        };
    }

    private static FrameBrief BriefOf(LiveFrame f) =>
        new(f.File, f.Role, f.Iso, f.Shutter, f.LightStep ?? f.Light, f.IsSure, f.Why, f.SignalShare, f.LightEv, [.. f.Flaws.Select(x => new FlawBrief(x.Code, x.Message, x.Remedy, x.ShootAgain))]);

    private static FindingBrief BriefOf(Finding f) =>
        new(f.Code, f.Severity.ToString().ToLowerInvariant(), f.Iso, f.Channel, f.Frames, f.Size, f.SizeUnit, f.Message, f.Remedy);

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
