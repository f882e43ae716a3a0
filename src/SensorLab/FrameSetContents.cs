using SensorLab.Measurement.Sets;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>What a frame set's folder holds.</summary>
internal sealed record FrameSetContents
{
    /// <summary>The folder's full path; a frame's path is this and its <see cref="SetFrame.File"/>.</summary>
    public required string Folder { get; init; }

    /// <summary>The frames that could be opened, by path.</summary>
    public required IReadOnlyList<SetFrame> Frames { get; init; }

    /// <summary>The raw files that could not, by path.</summary>
    public required IReadOnlyList<RejectedFile> Rejected { get; init; }

    /// <summary>Why they could not, and which rows of <c>frames.csv</c> name no file.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Files that are neither raw files nor the table.</summary>
    public required int FilesIgnored { get; init; }
}
