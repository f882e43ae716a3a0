using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Retest;

/// <summary>What came of comparing two sensor profiles.</summary>
public sealed record RetestResult
{
    /// <summary>The verdict of the whole: changed where a figure is or a change was found, else undecided where a figure is.</summary>
    public required RetestVerdict Verdict { get; init; }

    /// <summary>The verdict of the figures that need no meter, and of the changes found.</summary>
    public required RetestVerdict MeterFreeVerdict { get; init; }

    /// <summary>The verdict of the figures that the meter's zero has a part in.</summary>
    public required RetestVerdict MeterTiedVerdict { get; init; }

    /// <summary>Whether the profiles are of two bodies of one model.</summary>
    public required bool IsTwoBodies { get; init; }

    /// <summary>The body of the earlier profile, or the first of two bodies.</summary>
    public required BodyIdentity BodyBefore { get; init; }

    /// <summary>The body of the later profile, or the second of two bodies.</summary>
    public required BodyIdentity BodyAfter { get; init; }

    /// <summary>How the recording modes differ; empty where they do not, as far as the frames say.</summary>
    public required IReadOnlyList<string> ModeDifferences { get; init; }

    /// <summary>What the verdict assumes, another recording mode first.</summary>
    public required IReadOnlyList<string> Assumes { get; init; }

    /// <summary>Every figure that both profiles hold, in the document's order.</summary>
    public required IReadOnlyList<ComparedFigure> Figures { get; init; }

    /// <summary>What firmware is known to change and was found.</summary>
    public required IReadOnlyList<Change> Changes { get; init; }

    /// <summary>What it means for the next assignment.</summary>
    public required OnMonday OnMonday { get; init; }

    /// <summary>For two bodies, what to dial in on the second; else empty.</summary>
    public required IReadOnlyList<DialIn> DialIn { get; init; }
}
