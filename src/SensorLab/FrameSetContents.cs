using SensorLab.Assignment;
using SensorLab.Profiles;
using SensorLab.Sets;

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

    /// <summary>Raw files that frames.csv gives the role none, by path; they were not opened unless samples were asked for.</summary>
    public IReadOnlyList<string> SetAside { get; init; } = [];

    /// <summary>What a small sample of each frame's photosites shows, by path; empty where nobody asked.</summary>
    public IReadOnlyDictionary<string, FrameSample> Samples { get; init; } = new Dictionary<string, FrameSample>();

    /// <summary>The rows of frames.csv, by the file that each names; those without a file by what they name.</summary>
    public IReadOnlyDictionary<string, FrameRow> Rows { get; init; } = new Dictionary<string, FrameRow>();

    /// <summary>Whether frames.csv names light steps: a blank one is the metered light then.</summary>
    public bool NamesLightSteps { get; init; }

    /// <summary>Files that are neither raw files nor the table.</summary>
    public required int FilesIgnored { get; init; }
}
