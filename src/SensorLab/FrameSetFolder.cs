using SensorLab.Frames;
using SensorLab.Measurement.Sets;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>Reads a frame set's folder: roles from subfolders, the table over the frames' own metadata.</summary>
/// <remarks>A file that cannot be opened becomes a finding; the rest goes on.</remarks>
internal sealed class FrameSetFolder(RawFileAccess access)
{
    /// <summary>Reads the folder and the header of every frame in it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="jobs">Files opened at once, 1 or more.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>What the folder holds; the same for any <paramref name="jobs"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="jobs"/> is below 1.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist, or is a file.</exception>
    /// <exception cref="FrameTableException">The table cannot be followed.</exception>
    /// <exception cref="IOException">The folder or the table cannot be read.</exception>
    public async Task<FrameSetContents> ReadAsync(string folder, int jobs, CancellationToken cancellation = default)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(jobs, 1);
        string root = Path.GetFullPath(folder);
        if (!Directory.Exists(root))
        {
            throw new DirectoryNotFoundException($"{folder} is not a folder.");
        }

        IReadOnlyList<string> files = FolderListing.FilesBelow(root, cancellation);
        IReadOnlyList<FrameRow> rows = files.Contains(FrameTable.FileName) ? ReadTable(root) : [];
        var rowOfFile = new Dictionary<string, FrameRow>(StringComparer.Ordinal);
        var findings = new List<Finding>();
        foreach (FrameRow row in rows)
        {
            if (FileNamed(row.File, files) is not { } file || !rowOfFile.TryAdd(file, row))
            {
                findings.Add(FolderFindings.RowWithoutFile(row));
            }
        }

        string[] candidates = [.. files.Where(f => f != FrameTable.FileName && (rowOfFile.ContainsKey(f) || IsRawFile(f)))];
        var opened = new (SetFrame? Frame, Finding? Fault)[candidates.Length];
        await Parallel.ForEachAsync(
            Enumerable.Range(0, candidates.Length),
            new ParallelOptions { MaxDegreeOfParallelism = jobs, CancellationToken = cancellation },
            (i, _) =>
            {
                opened[i] = Open(root, candidates[i], rowOfFile.GetValueOrDefault(candidates[i]));
                return ValueTask.CompletedTask;
            });
        findings.AddRange(opened.Select(o => o.Fault).OfType<Finding>());
        return new FrameSetContents
        {
            Folder = root,
            Frames = [.. opened.Select(o => o.Frame).OfType<SetFrame>()],
            Rejected = [.. candidates.Where((_, i) => opened[i].Frame is null).Select(f => new RejectedFile(f, RoleOf(f, rowOfFile.GetValueOrDefault(f)).Role))],
            Findings = findings,
            FilesIgnored = files.Count(f => f != FrameTable.FileName) - candidates.Length,
        };
    }

    private static IReadOnlyList<FrameRow> ReadTable(string root)
    {
        using FileStream stream = File.OpenRead(Path.Combine(root, FrameTable.FileName));
        return FrameTable.Read(stream);
    }

    /// <summary>The file that a row names; letters of another case will do where only one file fits.</summary>
    private static string? FileNamed(string name, IReadOnlyList<string> files)
    {
        if (files.Contains(name))
        {
            return name;
        }

        string[] alike = [.. files.Where(f => string.Equals(f, name, StringComparison.OrdinalIgnoreCase)).Take(2)];
        return alike.Length == 1 ? alike[0] : null;
    }

    private static (FrameRole? Role, string? Light) RoleOf(string file, FrameRow? row)
    {
        (FrameRole? role, string? light) = FramePath.RoleOf(file);
        return (row?.Role ?? role, row?.Light ?? light);
    }

    // Names that begin with a point are the operating system's companions of files (._P0012.dng), not frames.
    private bool IsRawFile(string file) => !Path.GetFileName(file).StartsWith('.') && access.IsRawFile(file);

    private (SetFrame? Frame, Finding? Fault) Open(string root, string file, FrameRow? row)
    {
        string path = Path.Combine(root, file);
        try
        {
            RawFrame raw;
            using (IMosaicReader reader = access.Open(path))
            {
                raw = reader.Frame;
            }

            (FrameRole? role, string? light) = RoleOf(file, row);
            var frame = new SetFrame
            {
                File = file,
                Raw = row is null ? raw : raw with { Metadata = row.Override(raw.Metadata) },
                Role = role,
                LightStep = row?.LightStep,
                Light = role == FrameRole.Light ? light : null,
                ContentKey = access.ContentKeyOf(path),
            };
            return (frame, null);
        }
        catch (UnsupportedFileException e)
        {
            return (null, FolderFindings.Unsupported(file, e));
        }
        catch (Exception e) when (e is MalformedFileException or IOException or UnauthorizedAccessException)
        {
            return (null, FolderFindings.Unreadable(file, e));
        }
    }
}
