namespace SensorLab.Bench.Api;

/// <summary>Everything that the page shows, as one document.</summary>
internal sealed record BenchState
{
    /// <summary>idle, shooting, measuring or done.</summary>
    public string Phase { get; init; } = "idle";

    /// <summary>The folder; null while none is open.</summary>
    public string? Set { get; init; }

    /// <summary>Whether the folder is there: a card may be pulled.</summary>
    public bool IsThere { get; init; } = true;

    /// <summary>Whether the folder was looked through: before, nothing is known of its frames, nor what is next.</summary>
    public bool IsLooked { get; init; }

    /// <summary>The plan in short; null without.</summary>
    public PlanBrief? Plan { get; init; }

    /// <summary>Frames counted.</summary>
    public FrameCounts Frames { get; init; } = new(0, 0, 0);

    /// <summary>What to shoot next; null where nothing is left or no plan is open.</summary>
    public NextShot? Next { get; init; }

    /// <summary>The settings, shot and to be shot.</summary>
    public IReadOnlyList<LevelBrief> Levels { get; init; } = [];

    /// <summary>Figures with the uncertainty reached and the one wanted.</summary>
    public IReadOnlyList<FigureBrief> Figures { get; init; } = [];

    /// <summary>Whether each ISO has enough, and what it lacks.</summary>
    public IReadOnlyList<IsoGoal> Isos { get; init; } = [];

    /// <summary>What the user must know, the worst first.</summary>
    public IReadOnlyList<FindingBrief> Findings { get; init; } = [];

    /// <summary>The finished profile; null before.</summary>
    public ProfileBrief? Profile { get; init; }

    /// <summary>The latest frames first: a dozen, and every one that is not good.</summary>
    public IReadOnlyList<FrameBrief> Latest { get; init; } = [];

    /// <summary>What only the user knows.</summary>
    public IReadOnlyList<QuestionBrief> Questions { get; init; } = [];

    /// <summary>Files that are being written.</summary>
    public IReadOnlyList<string> Waiting { get; init; } = [];

    /// <summary>What was said of the newest frames; its serial number rises with each saying.</summary>
    public Verdict? Verdict { get; init; }

    /// <summary>How far the finish is, from 0 to 1; null before.</summary>
    public double? Progress { get; init; }

    /// <summary>What last went wrong, in a sentence; null where nothing did.</summary>
    public string? Trouble { get; init; }

    /// <summary>Charts that can be drawn now, by name.</summary>
    public IReadOnlyList<string> Charts { get; init; } = [];

    /// <summary>Rises whenever the charts' data change.</summary>
    public int ChartSerial { get; init; }

    /// <summary>Levels measured since the set was opened, those measured again among them.</summary>
    public int LevelsMeasured { get; init; }

    /// <summary>What may be opened from a phone; null without --share.</summary>
    public ShareBrief? Share { get; init; }

    /// <summary>What the figures' uncertainties are to be, as half the 95 % interval, in the unit of each.</summary>
    public IReadOnlyDictionary<string, double> Wanted { get; init; } = new Dictionary<string, double>();
}

/// <summary>A plan in short.</summary>
internal sealed record PlanBrief(string Protocol, int ProtocolVersion, string Title, IReadOnlyList<int> Isos, int Frames, int Minutes, IReadOnlyList<string> Kit, IReadOnlyList<string> Cautions, IReadOnlyList<string> Notices);

/// <summary>Frames counted: files seen, frames with a use in the set, files that cannot be read.</summary>
internal sealed record FrameCounts(int Seen, int Assigned, int Refused);

/// <summary>What to shoot next.</summary>
internal sealed record NextShot
{
    public required string Role { get; init; }

    public required int Iso { get; init; }

    public required string Shutter { get; init; }

    public required double ExposureSeconds { get; init; }

    public string? LightStep { get; init; }

    public string? Light { get; init; }

    public string? Look { get; init; }

    public int? Step { get; init; }

    /// <summary>Frames of this setting that are missing.</summary>
    public required int Frames { get; init; }

    /// <summary>What to do before.</summary>
    public required IReadOnlyList<string> Actions { get; init; }

    /// <summary>Whether a later step was already shot: this one was passed over.</summary>
    public bool IsPassedOver { get; init; }

    /// <summary>Why it is asked for beyond the plan; null for a step of the plan.</summary>
    public string? Reason { get; init; }

    /// <summary>All frames left.</summary>
    public required int FramesLeft { get; init; }

    /// <summary>Minutes left, at an unhurried pace.</summary>
    public required int MinutesLeft { get; init; }

    /// <summary>The setting after this one; null where none is.</summary>
    public string? Then { get; init; }
}

/// <summary>A setting: what it serves for, how many frames it has and wants, and how far it is.</summary>
internal sealed record LevelBrief
{
    public required string Role { get; init; }

    public required int Iso { get; init; }

    public required string Shutter { get; init; }

    public double? ExposureSeconds { get; init; }

    public string? LightStep { get; init; }

    public string? Light { get; init; }

    public required int Frames { get; init; }

    /// <summary>Frames that the plan has; null without a plan.</summary>
    public int? Wanted { get; init; }

    /// <summary>EV from middle grey as measured; null before.</summary>
    public double? Ev { get; init; }

    /// <summary>Mean signal of green as a share of the range, by a sample.</summary>
    public double? SignalShare { get; init; }

    /// <summary>open, shot, measured or skipped.</summary>
    public required string State { get; init; }
}

/// <summary>A figure with the uncertainty reached and the one wanted, both as half the 95 % interval of this set's sampling.</summary>
internal sealed record FigureBrief(int Iso, string Name, string Label, double? Value, double? AtLeast, double? AtMost, string Unit, double? Uncertainty, double Wanted, string WantedUnit, bool IsReached);

/// <summary>Whether an ISO has enough.</summary>
internal sealed record IsoGoal(int Iso, bool IsEnough, int Skipped, string Words);

/// <summary>A finding.</summary>
internal sealed record FindingBrief(string Code, string Severity, int? Iso, string? Channel, IReadOnlyList<string> Frames, double? Size, string? SizeUnit, string Message, string? Remedy);

/// <summary>The finished profile, and where it lies.</summary>
internal sealed record ProfileBrief(string Body, string Path, IReadOnlyList<string> Answers, IReadOnlyList<string> Files, bool HasRetest, bool HasBundle, bool HasDebrief, ShelfView? Shelf, string? Key);

/// <summary>A frame, what it was taken for, and what is wrong with it.</summary>
internal sealed record FrameBrief(string File, string Role, int? Iso, string? Shutter, string? LightStep, bool IsSure, string Why, double? SignalShare, double? LightEv, IReadOnlyList<FlawBrief> Flaws);

/// <summary>What is wrong with a frame.</summary>
internal sealed record FlawBrief(string Code, string Message, string Remedy, bool ShootAgain);

/// <summary>A question with the frames that hang on it.</summary>
internal sealed record QuestionBrief(IReadOnlyList<string> Files, string Question);

/// <summary>What was said of the newest frames.</summary>
internal sealed record Verdict(int Serial, bool IsGood, string Words, string? Remedy);

/// <summary>What phones may open.</summary>
internal sealed record ShareBrief(string Who, string? ShotList, string? PocketSheet);
