namespace SensorLab.Files;

/// <summary>What a command writes, put in place together or not at all.</summary>
/// <remarks>
/// Every file is made whole in a staging folder beside its place first (<see cref="StagingFolder"/>); from then on only moves
/// are left, and a move that fails undoes those before it. No input, device or folder is ever replaced.
/// </remarks>
/// <param name="inputs">What the command reads; null for nothing.</param>
public sealed class WholeOutput(InputFiles? inputs = null)
{
    private const string Placing = "placing";

    // Moving a folder's files takes milliseconds; a run that holds the lock longer is stopped or on a dead disk.
    private static readonly TimeSpan LongestPlacing = TimeSpan.FromSeconds(30);

    private readonly List<OutputGroup> _groups = [];

    /// <summary>Where a file would be put, links followed.</summary>
    /// <param name="path">The file; it may exist.</param>
    /// <exception cref="IOException">It leads to a device, a pipe or a socket; or its name is longer than a name can be.</exception>
    /// <exception cref="UnauthorizedAccessException">It is a folder.</exception>
    public static string TargetOf(string path) => OutputTarget.OfFile(path);

    /// <summary>Adds a file.</summary>
    /// <param name="path">The file; a symbolic link is followed.</param>
    /// <param name="write">Writes its content.</param>
    /// <returns>This output.</returns>
    /// <exception cref="IOException">It is an input, a device, or its folder is missing.</exception>
    /// <exception cref="UnauthorizedAccessException">It is a folder.</exception>
    public WholeOutput WithFile(string path, Action<Stream> write)
    {
        string target = OutputTarget.OfFile(path);
        inputs?.RequireApart(target);
        string folder = Path.GetDirectoryName(target)!;
        if (!Directory.Exists(folder))
        {
            throw new DirectoryNotFoundException($"{path} cannot be written: there is no folder {folder}.");
        }

        _groups.Add(new OutputGroup(folder, [OutputItem.OfFile(Path.GetFileName(target), write)]));
        return this;
    }

    /// <summary>Adds a file that can only be made by its path, such as a database.</summary>
    /// <param name="path">The file; a symbolic link is followed.</param>
    /// <param name="make">Makes it at a path that is free, and leaves it closed.</param>
    /// <returns>This output.</returns>
    /// <exception cref="IOException">It is an input, a device, or its folder is missing.</exception>
    /// <exception cref="UnauthorizedAccessException">It is a folder.</exception>
    public WholeOutput WithMadeFile(string path, Action<string> make)
    {
        WithFile(path, _ => { });
        OutputGroup group = _groups[^1];
        _groups[^1] = group with { Items = [new OutputItem(group.Items[0].Name, make)] };
        return this;
    }

    /// <summary>Adds a file that replaces none: whoever came first stays.</summary>
    /// <param name="path">The file, which must not be there.</param>
    /// <param name="write">Writes its content.</param>
    /// <param name="mode">Its rights, from its first byte on; not on Windows, where it has its folder's.</param>
    /// <returns>This output.</returns>
    /// <exception cref="IOException">It is there, a link included, or its folder is missing.</exception>
    public WholeOutput WithNewFile(string path, Action<Stream> write, UnixFileMode mode)
    {
        if (Path.Exists(path) || new FileInfo(path).LinkTarget is not null)
        {
            throw new IOException($"{path} is there already, and is never overwritten: choose another name.");
        }

        WithFile(path, write);
        OutputGroup group = _groups[^1];
        _groups[^1] = group with { Items = [OutputItem.OfNewFile(group.Items[0].Name, write, mode)] };
        return this;
    }

    /// <summary>Adds files of a folder.</summary>
    /// <param name="folder">The folder; made where missing, its other files are left alone.</param>
    /// <param name="files">Paths in the folder, with forward slashes, and contents.</param>
    /// <returns>This output.</returns>
    /// <exception cref="IOException">
    /// The folder is a file, the folder above is missing, one of the files is an input or a folder, or one of the folders in it
    /// is a file or a link.
    /// </exception>
    public WholeOutput WithFolder(string folder, IEnumerable<(string Name, ReadOnlyMemory<byte> Bytes)> files)
    {
        string target = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        OutputItem[] items = [.. files.Select(file => OutputItem.OfFile(file.Name, stream => stream.Write(file.Bytes.Span)))];
        foreach (OutputItem item in items)
        {
            string path = Path.Combine(target, item.Name);
            RequireReplaceable(target, item.Name);
            inputs?.RequireApart(path);
        }

        _groups.Add(new OutputGroup(target, items));
        return this;
    }

    /// <summary>Adds a folder that is replaced whole.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="fill">Writes its content into an empty folder.</param>
    /// <param name="requireFree">Throws where what stands there may not be replaced; asked now and just before the moves.</param>
    /// <returns>This output.</returns>
    /// <exception cref="IOException">It is a file or a link, or the folder above is missing.</exception>
    public WholeOutput WithWholeFolder(string folder, Action<string> fill, Action requireFree)
    {
        string target = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        string name = Path.GetFileName(target);
        OutputTarget.RequireName(folder, name);
        if (new DirectoryInfo(target).LinkTarget is not null)
        {
            throw new IOException($"{folder} is a link: name the folder itself.");
        }

        requireFree();
        var item = new OutputItem(name, path => fill(Directory.CreateDirectory(path).FullName)) { RequireFree = requireFree };
        _groups.Add(new OutputGroup(Path.GetDirectoryName(target) ?? throw new IOException($"{folder} is no folder that can be replaced."), [item]));
        return this;
    }

    /// <summary>Makes every file and puts them all in place.</summary>
    /// <param name="cancellation">Heeded until the first move.</param>
    /// <exception cref="IOException">A file cannot be made or replaced; everything is as it was.</exception>
    /// <exception cref="UnauthorizedAccessException">A folder may not be written to; everything is as it was.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; everything is as it was.</exception>
    public void PutInPlace(CancellationToken cancellation = default)
    {
        cancellation.ThrowIfCancellationRequested();
        var staged = new List<StagedGroup>();
        try
        {
            foreach (OutputGroup group in _groups)
            {
                staged.Add(new StagedGroup(group));
                staged[^1].Make(cancellation);
            }

            cancellation.ThrowIfCancellationRequested();
            Move(staged);
        }
        finally
        {
            staged.ForEach(group => group.Dispose());
        }
    }

    private static void Move(List<StagedGroup> staged)
    {
        var locks = new List<FolderLock>();
        try
        {
            // In one order for every run: two runs never wait for each other.
            foreach (string folder in staged.Select(group => group.Folder).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))
            {
                locks.Add(new FolderLock(folder, Placing, LongestPlacing));
            }

            bool isOne = staged.Sum(group => group.Count) == 1;
            if (!isOne)
            {
                staged.ForEach(group => group.KeepOld());
            }

            try
            {
                staged.ForEach(group => group.Move());
            }
            catch
            {
                staged.ForEach(group => group.Undo());
                throw;
            }
        }
        finally
        {
            locks.ForEach(held => held.Dispose());
        }
    }

    // What lets a move fail where a write succeeded: a folder in the file's place, or a file in its folder's. A link would lead elsewhere.
    private static void RequireReplaceable(string folder, string name)
    {
        string path = Path.Combine(folder, name);
        if (Directory.Exists(path))
        {
            throw new IOException($"{path} is a folder where a file should be written: move it away, or choose another folder.");
        }

        for (string? above = Path.GetDirectoryName(path); above is not null && above.Length > folder.Length; above = Path.GetDirectoryName(above))
        {
            if (File.Exists(above))
            {
                throw new IOException($"{above} is a file where a folder should be: move it away, or choose another folder.");
            }

            if (new DirectoryInfo(above).LinkTarget is not null)
            {
                throw new IOException($"{above} is a link and leads out of {folder}: remove it, or choose another folder.");
            }
        }
    }
}
