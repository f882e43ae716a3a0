using SensorLab.Assignment;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Live;

/// <summary>A folder that fills, as it stands: its frames, what is wrong, and what is still to be shot.</summary>
public sealed record LiveCard
{
    internal LiveCard(FrameSetContents contents, IReadOnlyList<SetFrame> assigned, CardAssignment assignment) =>
        (Contents, Assigned, Assignment) = (contents, assigned, assignment);

    /// <summary>The frames that are whole, in the order in which they were taken.</summary>
    public required IReadOnlyList<LiveFrame> Frames { get; init; }

    /// <summary>Files that are being written, or not whole yet.</summary>
    public required IReadOnlyList<string> Waiting { get; init; }

    /// <summary>Files that cannot be read though nobody writes to them any more.</summary>
    public required IReadOnlyList<string> Refused { get; init; }

    /// <summary>Files that lead out of the folder by a link; they are not read.</summary>
    public required IReadOnlyList<string> Outside { get; init; }

    /// <summary>What only the user knows.</summary>
    public required IReadOnlyList<AssignmentQuestion> Questions { get; init; }

    /// <summary>What headers and samples show, the worst first; that frames are still missing is no finding.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The plan's steps that frames are missing of, each with as many as are missing, in shooting order; empty without a plan.</summary>
    public required IReadOnlyList<PlanStep> Missing { get; init; }

    internal FrameSetContents Contents { get; }

    internal IReadOnlyList<SetFrame> Assigned { get; }

    internal CardAssignment Assignment { get; }
}
