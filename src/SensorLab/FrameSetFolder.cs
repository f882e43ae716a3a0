using System.Globalization;
using SensorLab.Assignment;
using SensorLab.Files;
using SensorLab.Frames;
using SensorLab.Live;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>Reads a frame set's folder: roles from subfolders, the table over the frames' own metadata.</summary>
/// <remarks>A file that cannot be opened becomes a finding; the rest goes on.</remarks>
internal sealed class FrameSetFolder(RawFileAccess access, SetMemory? memory = null)
{
    // What a profile lists at most, by its schema.
    private const int MostFrames = 100_000;

    /// <summary>Whether a file counts, by its path inside the folder: one that is still being written does not.</summary>
    public Func<string, bool> Includes { get; init; } = _ => true;

    /// <summary>Reads the folder and the header of every frame in it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="jobs">Files opened at once, 1 or more.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>What the folder holds; the same for any <paramref name="jobs"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="jobs"/> is below 1.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist, or is a file.</exception>
    /// <exception cref="FrameTableException">The table cannot be followed.</exception>
    /// <exception cref="MalformedFileException">The folder holds more raw files than any set.</exception>
    /// <exception cref="IOException">The folder or the table cannot be read.</exception>
    public Task<FrameSetContents> ReadAsync(string folder, int jobs, CancellationToken cancellation = default) =>
        ReadAsync(folder, jobs, takesSamples: false, null, cancellation);

    /// <summary>Reads the folder, the header of every frame and a small sample of its photosites, those of frames set aside too.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="jobs">Files opened at once, 1 or more.</param>
    /// <param name="progress">Told after every frame.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <inheritdoc cref="ReadAsync(string, int, CancellationToken)"/>
    public Task<FrameSetContents> SampleAsync(string folder, int jobs, IProgress<CharacterisationProgress>? progress, CancellationToken cancellation) =>
        ReadAsync(folder, jobs, takesSamples: true, progress, cancellation);

    private async Task<FrameSetContents> ReadAsync(string folder, int jobs, bool takesSamples, IProgress<CharacterisationProgress>? progress, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(jobs, 1);
        string root = Path.GetFullPath(folder);
        if (!Directory.Exists(root))
        {
            throw new DirectoryNotFoundException($"{folder} is not a folder.");
        }

        var unlisted = new List<string>();
        IReadOnlyList<string> files = FolderListing.FilesBelow(root, cancellation, unlisted);
        (string? table, IReadOnlyList<FrameRow> rows, Dictionary<string, FrameRow> rowOfFile, IReadOnlyList<FrameRow> withoutFile) = TableOf(root, files);
        List<Finding> findings = [.. unlisted.Select(FolderFindings.Unlisted), .. withoutFile.Select(FolderFindings.RowWithoutFile)];

        string[] raw = [.. files.Where(f => f != table && (rowOfFile.ContainsKey(f) || IsRawFile(f)) && Includes(f))];
        RequireOneSet(folder, raw.Length);
        string[] setAside = [.. raw.Where(f => rowOfFile.GetValueOrDefault(f) is { IsSetAside: true })];
        string[] candidates = takesSamples ? raw : [.. raw.Except(setAside)];
        findings.AddRange(FolderFindings.OfNames(files, raw));
        var opened = new (SetFrame? Frame, FrameSample? Sample, Finding? Fault)[candidates.Length];
        int done = 0;
        await Parallel.ForEachAsync(
            Enumerable.Range(0, candidates.Length),
            new ParallelOptions { MaxDegreeOfParallelism = jobs, CancellationToken = cancellation },
            (i, _) =>
            {
                opened[i] = Open(root, candidates[i], rowOfFile.GetValueOrDefault(candidates[i]), takesSamples);
                progress?.Report(new CharacterisationProgress(Interlocked.Increment(ref done), candidates.Length, candidates[i]));
                return ValueTask.CompletedTask;
            });
        findings.AddRange(opened.Select(o => o.Fault).OfType<Finding>());
        return new FrameSetContents
        {
            Folder = root,
            Frames = [.. opened.Select(o => o.Frame).OfType<SetFrame>()],
            Rejected = [.. candidates.Where((_, i) => opened[i].Frame is null).Select(f => new RejectedFile(f, RoleOf(f, rowOfFile.GetValueOrDefault(f)).Role))],
            Findings = findings,
            SetAside = setAside,
            Samples = opened.Where(o => o is { Frame: not null, Sample: not null }).ToDictionary(o => o.Frame!.File, o => o.Sample!),
            Rows = rows.ToDictionary(r => FileNamed(r.File, files) ?? r.File, StringComparer.Ordinal),
            NamesLightSteps = rows.Any(r => r.LightStep is not null),
            FilesIgnored = files.Count(f => f != table) - raw.Length,
        };
    }

    private static void RequireOneSet(string folder, int rawFiles)
    {
        if (rawFiles > MostFrames)
        {
            throw new MalformedFileException(string.Create(CultureInfo.InvariantCulture, $"{folder} holds {rawFiles} raw files, and a frame set {MostFrames} at most: name the folder of one set."));
        }
    }

    /// <summary>The table at the top of a folder, and which of its rows speaks of which file.</summary>
    /// <param name="root">The folder.</param>
    /// <param name="files">The paths of all files in it.</param>
    /// <exception cref="FrameTableException">The table cannot be followed.</exception>
    /// <exception cref="IOException">The table cannot be read.</exception>
    internal static (string? Table, IReadOnlyList<FrameRow> Rows, Dictionary<string, FrameRow> OfFile, IReadOnlyList<FrameRow> WithoutFile) TableOf(string root, IReadOnlyList<string> files)
    {
        string? table = TableAmong(files);
        IReadOnlyList<FrameRow> rows = table is null ? [] : ReadTable(Path.Combine(root, table));
        var ofFile = new Dictionary<string, FrameRow>(StringComparer.Ordinal);
        FrameRow[] withoutFile = [.. rows.Where(row => FileNamed(row.File, files) is not { } file || !ofFile.TryAdd(file, row))];
        return (table, rows, ofFile, withoutFile);
    }

    /// <summary>The table at the top, in any case of letters where none has the contract's.</summary>
    private static string? TableAmong(IReadOnlyList<string> files) => files.Contains(FrameTable.FileName)
        ? FrameTable.FileName
        : files.FirstOrDefault(f => f.Equals(FrameTable.FileName, StringComparison.OrdinalIgnoreCase));

    private static IReadOnlyList<FrameRow> ReadTable(string path)
    {
        using FileStream stream = PlainFile.OpenRead(path);
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

    private (SetFrame? Frame, FrameSample? Sample, Finding? Fault) Open(string root, string file, FrameRow? row, bool takesSample)
    {
        string path = Path.Combine(root, file);
        try
        {
            SetMemory.OpenedFrame opened = memory?.Opened(SetMemory.StampOf(path), () => Opened(path, takesSample: true)) ?? Opened(path, takesSample);
            RawFrame raw = opened.Raw;
            (FrameRole? role, string? light) = RoleOf(file, row);
            var frame = new SetFrame
            {
                File = file,
                Raw = row is null ? raw : raw with { Metadata = row.Override(raw.Metadata) },
                Role = row is { IsSetAside: true } ? null : role,
                LightStep = row?.LightStep,
                Light = role == FrameRole.Light ? light : null,
                ContentKey = opened.ContentKey,
            };
            return (frame, takesSample ? opened.Sample : null, null);
        }
        catch (UnsupportedFileException e)
        {
            return (null, null, FolderFindings.Unsupported(file, e));
        }
        catch (Exception e) when (e is MalformedFileException or IOException or UnauthorizedAccessException)
        {
            return (null, null, FolderFindings.Unreadable(file, e));
        }
    }
    private SetMemory.OpenedFrame Opened(string path, bool takesSample)
    {
        using IMosaicReader reader = access.Open(path);
        return new SetMemory.OpenedFrame(reader.Frame, takesSample ? FrameSampler.Of(reader) : null, access.ContentKeyOf(path));
    }
}
