using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Debriefs;

/// <summary>The raw files of a job's folder, whatever folders they lie in.</summary>
internal static class JobFolder
{
    /// <summary>A folder with more is no day's: a disk, perhaps.</summary>
    private const int MostFrames = 100_000;

    /// <summary>Lists them.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="files">How raw files are told.</param>
    /// <param name="found">Is told of folders that cannot be listed.</param>
    /// <param name="cancellation">Stops the listing.</param>
    /// <exception cref="DirectoryNotFoundException">It does not exist, or is a file.</exception>
    /// <exception cref="MalformedFileException">It holds more raw files than any job.</exception>
    public static (string Root, IReadOnlyList<string> Raw, IReadOnlyList<string> All) RawFilesOf(string folder, RawFileAccess files, Action<Finding> found, CancellationToken cancellation)
    {
        string root = Path.GetFullPath(folder);
        if (!Directory.Exists(root))
        {
            throw new DirectoryNotFoundException(File.Exists(root) ? $"{folder} is a file: name the folder that holds the raw files." : $"{folder} is not a folder.");
        }

        var unlisted = new List<string>();
        IReadOnlyList<string> all = FolderListing.FilesBelow(root, cancellation, unlisted);
        unlisted.ForEach(below => found(FolderFindings.Unlisted(below)));

        // Names that begin with a point are the operating system's companions of files, not frames.
        string[] raw = [.. all.Where(f => !Path.GetFileName(f).StartsWith('.') && files.IsRawFile(f))];
        return raw.Length <= MostFrames ? (root, raw, all) : throw new MalformedFileException(string.Create(
            CultureInfo.InvariantCulture, $"{folder} holds {raw.Length} raw files, and a debrief {MostFrames} at most: name the folder of one job."));
    }
}
