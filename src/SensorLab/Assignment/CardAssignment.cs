using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Assignment;

/// <summary>A card's folder with every frame's use, and whether the set can be characterised as assigned.</summary>
public sealed record CardAssignment
{
    /// <summary>The frames with their uses, and what is left to ask.</summary>
    public required FrameAssignment Assignment { get; init; }

    /// <summary>Whether the set can be characterised as assigned, as far as headers tell.</summary>
    public required bool CanBeCharacterised { get; init; }

    /// <summary>Whether there is anything to write down: a frame with a role, or a question that is answered in the table.</summary>
    public bool HasAnswer => Assignment.Questions.Count > 0 || Assignment.Frames.Any(f => f.Use.Role is not null);

    /// <summary>All findings, the worst first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Files that are neither raw files nor frames.csv.</summary>
    public required int FilesIgnored { get; init; }

    /// <summary>The assignment as frames.csv: UTF-8, a header row, one row a frame.</summary>
    public required ReadOnlyMemory<byte> Table { get; init; }

    /// <summary>The frames as a plan is compared with them.</summary>
    public required IReadOnlyList<Planning.Plans.ShotFrame> Shot { get; init; }

    /// <summary>Reads a card and assigns its frames; writes nothing.</summary>
    /// <param name="folder">The card's folder, or a copy of it.</param>
    /// <param name="card">The plan, and where the spot meter read zero.</param>
    /// <param name="jobs">Files opened at once, 1 or more.</param>
    /// <param name="progress">Told after every frame; null for silence.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="jobs"/> is below 1.</exception>
    /// <exception cref="FrameTableException">A frames.csv at the top cannot be followed.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    /// <remarks>
    /// Rows of a frames.csv that the user wrote or changed are the user's word and stay; rows that an earlier assignment wrote
    /// are told anew.
    /// </remarks>
    public static async Task<CardAssignment> RunAsync(
        string folder, CardReading card, int jobs, IProgress<CharacterisationProgress>? progress = null, CancellationToken cancellation = default)
    {
        FrameSetContents contents = await new FrameSetFolder(RawFileAccess.Library).SampleAsync(folder, jobs, progress, cancellation);
        return Of(contents, card, cancellation);
    }

    /// <summary>Assigns the frames of a card that was read.</summary>
    /// <param name="contents">The card, with samples.</param>
    /// <param name="card">What is known beside.</param>
    /// <param name="cancellation">Stops the work.</param>
    internal static CardAssignment Of(FrameSetContents contents, CardReading card, CancellationToken cancellation)
    {
        SampledFrame[] frames = [.. contents.Frames.Select(f => Sampled(contents, f))];
        FrameAssignment assignment = CardReader.Read(frames, card);
        assignment = assignment with
        {
            Frames = [.. assignment.Frames.Select(f => WithOwnWords(f, contents.Rows.GetValueOrDefault(f.File)))],
            Questions = [.. assignment.Questions, .. PreviewLooks.Questions(contents.Folder, frames, assignment.Frames, cancellation)],
        };
        SetFrame[] set = [.. contents.Frames.Zip(assignment.Frames.OrderBy(f => f.File, StringComparer.Ordinal), Assigned).Where(f => f.Role is not null)];
        Finding[] earlier = [.. contents.Findings, .. assignment.Findings];
        FrameSet? built = set.Length == 0 && contents.Frames.Count > 0 ? null : FrameSetBuilder.Build(set, GreyMethod.Metered, earlier);
        return new CardAssignment
        {
            Assignment = assignment,
            CanBeCharacterised = built is { IsRefused: false },
            Findings = built?.Findings ?? FindingOrder.WorstFirst([NoneOfTheSet(contents.Frames.Count), .. earlier]),
            FilesIgnored = contents.FilesIgnored,
            Table = AssignmentTable.Write(assignment.Frames, contents.Rows),
            Shot = [.. set.Select(f => new Planning.Plans.ShotFrame(f.File, RoleWord.Of(f.Role!.Value), f.Raw.Metadata.Iso, f.Raw.Metadata.ExposureSeconds, f.LightStep, f.Light))],
        };
    }

    private static Finding NoneOfTheSet(int frames) => new()
    {
        Code = FindingCode.FramesNone,
        Severity = FindingSeverity.Refusal,
        Size = 0,
        SizeUnit = "count",
        Message = string.Create(CultureInfo.InvariantCulture, $"None of the {frames} raw files is a frame of a set, as far as can be told."),
        Remedy = "Name the folder that holds the set's frames; where they are these, answer the questions, or give frames a role in a frames.csv of your own.",
    };

    /// <summary>A card's frame as its use is told.</summary>
    /// <param name="contents">The card, with samples.</param>
    /// <param name="frame">The frame.</param>
    internal static SampledFrame Sampled(FrameSetContents contents, SetFrame frame)
    {
        (FrameRole? role, string? light) = FramePath.RoleOf(frame.File);
        FrameRow? row = contents.Rows.GetValueOrDefault(frame.File);
        return new SampledFrame
        {
            File = frame.File,
            Raw = frame.Raw,
            Sample = contents.Samples[frame.File],
            ContentKey = frame.ContentKey,
            Filed = role is null ? null : new FrameUse(role, Light: light),
            Said = row is null ? null : AssignmentTable.SaidBy(row),
            IsLightSaid = row is not null && contents.NamesLightSteps && !AssignmentTable.IsOwn(row),
        };
    }

    // A row may name the light step or the look and leave the role open.
    private static AssignedFrame WithOwnWords(AssignedFrame frame, FrameRow? row) => row is { Role: null, IsSetAside: false, LightStep: { } step } && frame.Use.Role is FrameRole.Metered or FrameRole.Bracket
        ? frame with { Use = frame.Use with { LightStep = step }, Why = frame.Why + " The light step as you say in frames.csv." }
        : frame;

    /// <summary>A frame with its use.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="assigned">Its use.</param>
    internal static SetFrame Assigned(SetFrame frame, AssignedFrame assigned) => frame with
    {
        Role = assigned.Use.Role,
        LightStep = assigned.Use.LightStep,
        Light = assigned.Use.Light,
    };
}
