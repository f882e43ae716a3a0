using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using SensorLab.Assignment;
using SensorLab.Files;
using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.RawFiles;
using SensorLab.Sets;

namespace SensorLab.Live;

/// <summary>A folder that fills while its set is being shot: every frame is told and judged as soon as it is whole, every level measured once its frames are there, and kept for the end.</summary>
/// <remarks>
/// Nothing is told or measured in another way than in a finished folder: the uses are <see cref="CardReader"/>'s, the levels and
/// figures <see cref="Characterisation"/>'s. A level is measured again only where what it hangs on has changed: its files, the
/// region, its ISO's dark frames. One look and one measurement may run side by side, no more.
/// </remarks>
public sealed class LiveSet
{
    /// <summary>What an unfinished set lacks, and is not to be blamed for.</summary>
    private static readonly string[] NotYet =
    [
        FindingCode.FramesNone, FindingCode.DarkMissing, FindingCode.MeteredMissing, FindingCode.PairMissing, FindingCode.LevelsTooFew,
        FindingCode.SaturationNotReached, FindingCode.ShadowNotReached, FindingCode.FrameUnassigned, FindingCode.PreviewMissing,
    ];

    private readonly CharacterisationOptions _options;
    private readonly SetMemory _memory;
    private readonly FolderWatch _watch;

    /// <summary>Opens a folder; nothing of it is read yet.</summary>
    /// <param name="folder">The folder; it must exist.</param>
    /// <param name="plan">The plan that is shot; null for none.</param>
    /// <param name="metered">Where the spot meter read zero, for a set without a plan.</param>
    /// <param name="options">What the user chose.</param>
    /// <param name="levels">A folder of the program's own, of this set alone, for levels that are measured: one that an earlier run measured is not measured again. Null to keep none.</param>
    /// <exception cref="DirectoryNotFoundException">There is no such folder.</exception>
    public LiveSet(string folder, ShotPlan? plan, IReadOnlyList<MeteredSetting> metered, CharacterisationOptions options, string? levels = null)
    {
        Folder = PathOf(folder);
        _memory = new SetMemory(levels is null ? null : new LevelStore(levels));
        Card = new CardReading { Plan = plan, Metered = metered };
        _options = options;
        _watch = new FolderWatch(Folder);
    }

    /// <summary>The folder's full path.</summary>
    public string Folder { get; }

    /// <summary>The plan, and where the meter read zero.</summary>
    public CardReading Card { get; }

    /// <summary>Whether the folder is there; a card may be pulled, and comes back.</summary>
    public bool IsThere => _watch.IsThere;

    /// <summary>What <see cref="Mark"/> was when the set was last finished, before its frames were read for it; null before.</summary>
    public string? FinishedMark { get; private set; }

    /// <summary>The full path by which a set's folder is known, links followed.</summary>
    /// <param name="folder">The folder.</param>
    /// <exception cref="DirectoryNotFoundException">There is no such folder.</exception>
    public static string PathOf(string folder) => Path.TrimEndingDirectorySeparator(new DirectoryInfo(folder) is { Exists: true } found
        ? (found.LinkTarget is null ? found : found.ResolveLinkTarget(returnFinalTarget: true)!).FullName
        : throw new DirectoryNotFoundException($"There is no folder {folder}."));

    /// <summary>Looks which files are there and which of them stand still.</summary>
    /// <returns>Whether <see cref="LookAsync"/> would see something new.</returns>
    public bool Poll() => _watch.Poll(Counts);

    /// <summary>What a finish hangs on, as it lies there now: names, lengths and times of the raw files and of frames.csv, the plan, and the build that measures.</summary>
    /// <exception cref="IOException">The folder cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public string Mark()
    {
        IEnumerable<string> files = FolderListing.FilesBelow(Folder, CancellationToken.None, []).Where(Counts).Order(StringComparer.Ordinal).Select(f => SetMemory.StampOf(Path.Combine(Folder, f)));
        string plan = Card.Plan is null ? string.Empty : Convert.ToHexString(ShotPlanDocument.Write(Card.Plan));
        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', [LevelStore.Build, plan, .. Card.Metered.Select(m => m.ToString()), .. files]))));
    }

    /// <summary>Tells and judges the frames that are whole.</summary>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="FrameTableException">The folder's frames.csv cannot be followed.</exception>
    /// <exception cref="IOException">The folder cannot be read; it may have been pulled.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public async Task<LiveCard> LookAsync(CancellationToken cancellation = default)
    {
        FrameSetContents contents = await new FrameSetFolder(RawFileAccess.Library, _memory) { Includes = _watch.IsWhole }.SampleAsync(Folder, _options.Jobs, null, cancellation);
        var assignment = CardAssignment.Of(contents, Card, cancellation);
        HashSet<string> awaited = [.. contents.Rejected.Select(r => r.File).Where(_watch.IsAwaited)];
        SetFrame[] assigned = [.. contents.Frames.Zip(assignment.Assignment.Frames.OrderBy(f => f.File, StringComparer.Ordinal), CardAssignment.Assigned)];
        return new LiveCard(contents, [.. assigned.Where(f => f.Role is not null)], assignment)
        {
            Frames = [.. FramesOf(contents, assignment)],
            Waiting = [.. _watch.Changing.Where(f => f != FrameTable.FileName).Union(awaited).Order(StringComparer.Ordinal)],
            Refused = [.. contents.Rejected.Select(r => r.File).Where(f => !awaited.Contains(f))],
            Outside = _watch.Outside,
            Questions = assignment.Assignment.Questions,
            Findings = [.. assignment.Findings.Where(f => !NotYet.Contains(f.Code) && !(f.Frames is [var only] && awaited.Contains(only)))],
            Missing = Card.Plan is { } plan ? MissingOf(plan, assignment.Shot) : [],
        };
    }

    /// <summary>Measures the levels whose frames are all there, those that were not measured before, and says what they give.</summary>
    /// <param name="card">The latest look.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>Null where no level can be measured yet: where to measure is told by the first ISO's metered frames.</returns>
    /// <exception cref="CharacterisationOptionsException">The region or the spot lies outside the frames.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public async Task<LiveFigures?> MeasureAsync(LiveCard card, CancellationToken cancellation = default)
    {
        SetFrame[] ready = [.. Ready(card)];
        if (ready.Length == 0 || !ready.Any(f => f.Role == FrameRole.Metered) || (Card.Plan is { } plan && card.Missing.Any(s => s.Role == RoleName.Metered && s.Iso == plan.Isos[0])))
        {
            return null;
        }

        FrameSetContents contents = card.Contents with { Frames = ready, Rejected = [], Findings = [] };
        try
        {
            MeasuredSet measured = await SetMeasurement.RunAsync(RawFileAccess.Library, contents, _options, hashesFiles: true, null, cancellation, _memory);
            var previews = new MeasuredPreviews(new Dictionary<Level, IReadOnlyList<PreviewCodes>>(), []);
            SensorProfile profile = new ProfileAssembler(contents, measured, previews, _options, cancellation).Assemble();
            return new LiveFigures(profile, Due(profile.Findings), _memory.LevelsMeasured);
        }
        catch (FrameSetRefusedException refused)
        {
            return new LiveFigures(null, Due(refused.Findings), _memory.LevelsMeasured);
        }
    }

    /// <summary>Finishes the set: writes frames.csv where the folder does not say the uses by itself, measures what was not measured, and fits.</summary>
    /// <param name="progress">Told after every level; null for silence.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>The profile that <see cref="Characterisation.RunAsync"/> gives of the same folder, to the last digit; with a plan, it names the protocol.</returns>
    /// <exception cref="FrameSetRefusedException">The set can give no figures; every reason is a finding.</exception>
    /// <exception cref="FrameTableException">The folder's frames.csv cannot be followed.</exception>
    /// <exception cref="CharacterisationOptionsException">The region or the spot lies outside the frames.</exception>
    /// <exception cref="IOException">The folder cannot be read, or frames.csv not be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public async Task<SensorProfile> CharacteriseAsync(IProgress<CharacterisationProgress>? progress = null, CancellationToken cancellation = default)
    {
        FrameSetContents sampled = await new FrameSetFolder(RawFileAccess.Library, _memory) { Includes = _watch.IsInside }.SampleAsync(Folder, _options.Jobs, null, cancellation);
        var assignment = CardAssignment.Of(sampled, Card, cancellation);
        if (!SaysItself(sampled, assignment) && assignment.HasAnswer)
        {
            Write(assignment.Table, cancellation);
        }

        // Whatever comes or changes from here on makes another mark.
        string mark = Mark();
        FrameSetContents contents = await new FrameSetFolder(RawFileAccess.Library, _memory) { Includes = _watch.IsInside }.ReadAsync(Folder, _options.Jobs, cancellation);
        SensorProfile profile = await Characterisation.OfAsync(contents, _options, progress, _memory, cancellation);
        FinishedMark = mark;
        return Card.Plan is not { } plan
            ? profile
            : profile with { Conditions = profile.Conditions with { Protocol = string.Create(CultureInfo.InvariantCulture, $"{plan.Protocol} {plan.ProtocolVersion}") } };
    }

    /// <summary>Gives frames a role by the user's word, in the folder's frames.csv, or takes that word back.</summary>
    /// <param name="card">The latest look.</param>
    /// <param name="files">The frames; files that the look does not hold are passed over.</param>
    /// <param name="role">dark, metered, bracket, light, or none to strike them; null to take an earlier word back.</param>
    /// <param name="lightStep">The light step, for metered and bracket.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">There is no such role.</exception>
    /// <exception cref="IOException">frames.csv cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">frames.csv may not be written.</exception>
    public void Say(LiveCard card, IReadOnlyCollection<string> files, string? role, string? lightStep = null, CancellationToken cancellation = default)
    {
        FrameRole? said = role is null or "none" ? null : RoleWord.Read(role) ?? throw new ArgumentException($"There is no role {role}.", nameof(role));
        var rows = new Dictionary<string, FrameRow>(card.Contents.Rows, StringComparer.Ordinal);
        foreach (string file in files.Where(f => card.Assignment.Assignment.Frames.Any(a => a.File == f)))
        {
            if (role is null)
            {
                rows.Remove(file);
                continue;
            }

            FrameRow row = rows.GetValueOrDefault(file) ?? new FrameRow { Line = 0, File = file };
            rows[file] = row with { Role = said, IsSetAside = said is null, LightStep = said is null ? null : lightStep, Note = null };
        }

        IReadOnlyList<AssignedFrame> frames = [.. card.Assignment.Assignment.Frames.Select(f => files.Contains(f.File) && role is not null ? f with { Use = new FrameUse(said, lightStep), IsSure = true } : f)];
        Write(AssignmentTable.Write(frames, rows), cancellation);
    }

    private static bool Counts(string file) => file == FrameTable.FileName || (!Path.GetFileName(file).StartsWith('.') && RawFileOpener.IsRawFile(file));

    private static IReadOnlyList<Finding> Due(IReadOnlyList<Finding> findings) => [.. findings.Where(f => !NotYet.Contains(f.Code))];

    private void Write(ReadOnlyMemory<byte> table, CancellationToken cancellation) => WholeFile.Write(Path.Combine(Folder, FrameTable.FileName), table, cancellation);

    // Frames that lie in their roles' folders need no table.
    private static bool SaysItself(FrameSetContents contents, CardAssignment assignment) => contents.Frames
        .Zip(assignment.Assignment.Frames.OrderBy(f => f.File, StringComparer.Ordinal))
        .All(f => f.Second.IsSure && f.First.Role == f.Second.Use.Role && f.First.LightStep == f.Second.Use.LightStep && f.First.Light == f.Second.Use.Light && f.Second.Use.Look is null);

    private IEnumerable<LiveFrame> FramesOf(FrameSetContents contents, CardAssignment assignment)
    {
        SampledFrame[] known = [.. contents.Frames.Where(f => f.Raw.Metadata is { Iso: not null, ExposureSeconds: > 0 }).Select(f => CardAssignment.Sampled(contents, f))];
        IReadOnlyList<SeenFrame> seen = CardReader.Seen(known);
        Dictionary<string, SeenFrame> seenOf = seen.ToDictionary(s => s.File, StringComparer.Ordinal);
        Dictionary<string, AssignedFrame> assigned = assignment.Assignment.Frames.ToDictionary(f => f.File, StringComparer.Ordinal);
        var flaws = new FrameFlaws(seen, assigned.Values, Card.Plan);
        ILookup<string, Finding> findings = assignment.Findings.Where(f => f.Severity != FindingSeverity.Note && !NotYet.Contains(f.Code)).SelectMany(f => f.Frames.Select(file => (file, f))).ToLookup(f => f.file, f => f.f);
        foreach (string file in seen.Select(s => s.File).Concat(assigned.Keys.Except(seenOf.Keys).Order(StringComparer.Ordinal)))
        {
            AssignedFrame use = assigned[file];
            SeenFrame? frame = seenOf.GetValueOrDefault(file);
            yield return new LiveFrame
            {
                File = file,
                Role = use.Use.RoleName,
                Iso = use.Iso,
                ExposureSeconds = frame?.Seconds,
                TakenAt = frame?.Frame.Raw.Metadata.CaptureTime,
                Shutter = frame is null ? null : ShutterTime.Nearest(frame.Seconds)?.Label,
                LightStep = use.Use.LightStep,
                Light = use.Use.Light,
                Step = use.Step,
                IsSure = use.IsSure,
                Why = use.Why,
                SignalShare = frame is null ? null : Math.Max(0, frame.SignalDn / frame.RangeDn),
                LightEv = use.Use.Role is FrameRole.Metered or FrameRole.Bracket ? flaws.LightEvOf(file) : null,
                Flaws = [.. flaws.Of(file), .. findings[file].Select(f => new LiveFlaw(f.Code, f.Message, f.Remedy, f.Severity == FindingSeverity.Refusal))],
            };
        }
    }

    private static IReadOnlyList<PlanStep> MissingOf(ShotPlan plan, IReadOnlyList<ShotFrame> shot)
    {
        List<PlanStep> open = [.. plan.Steps];
        var missing = new List<PlanStep>();
        foreach (PlanStep step in PlanComparison.Of(plan, shot).Missing)
        {
            int at = open.FindIndex(s => s.Role == step.Role && s.Iso == step.Iso && s.Shutter == step.Shutter && s.LightStep == step.LightStep && s.Light == step.Light && s.Look == step.Look);
            missing.Add(open[at] with { Frames = step.Frames, Actions = step.Frames < open[at].Frames ? [] : open[at].Actions });
            open.RemoveRange(0, at + 1);
        }

        return missing;
    }

    private IEnumerable<SetFrame> Ready(LiveCard card)
    {
        HashSet<(string, int, int?, string?, string?)> missing = [.. card.Missing.Select(s => (s.Role, s.Iso, RoleName.IsAtMetersZero(s.Role) ? null : ShutterTime.Nearest(s.ExposureSeconds)?.Thirds, s.LightStep, s.Light))];
        string? newest = card.Frames.LastOrDefault(f => f.Role != "none")?.File;
        foreach (var level in card.Assigned.Where(f => f.Raw.Metadata is { Iso: not null, ExposureSeconds: > 0 }).GroupBy(f => SettingOf(f)))
        {
            bool isWhole = Card.Plan is not null ? !missing.Contains(level.Key) : level.Count() > 1 && level.All(f => f.File != newest);
            foreach (SetFrame frame in isWhole ? level : Enumerable.Empty<SetFrame>())
            {
                yield return frame;
            }
        }
    }

    private static (string Role, int Iso, int? Thirds, string? LightStep, string? Light) SettingOf(SetFrame frame)
    {
        string role = RoleWord.Of(frame.Role!.Value);
        return (role, frame.Raw.Metadata.Iso!.Value, RoleName.IsAtMetersZero(role) ? null : ShutterTime.Nearest(frame.Raw.Metadata.ExposureSeconds!.Value)?.Thirds, frame.LightStep, frame.Light);
    }
}
