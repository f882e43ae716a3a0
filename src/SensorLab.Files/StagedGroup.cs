namespace SensorLab.Files;

/// <summary>What goes into one folder, made aside and then moved into it.</summary>
internal sealed class StagedGroup : IDisposable
{
    private readonly OutputGroup _group;
    private readonly StagingFolder _staging;
    private readonly List<string> _foldersMade = [];
    private readonly List<string> _moved = [];

    /// <summary>Makes the folder where it is missing, and a staging folder in it.</summary>
    public StagedGroup(OutputGroup group)
    {
        _group = group;
        MakeFolder(group.Folder);
        try
        {
            _staging = new StagingFolder(group.Folder);
        }
        catch
        {
            RemoveFoldersMade();
            throw;
        }
    }

    /// <summary>The folder.</summary>
    public string Folder => _group.Folder;

    /// <summary>How many files and folders there are.</summary>
    public int Count => _group.Items.Count;

    /// <summary>Makes everything aside.</summary>
    /// <exception cref="IOException">A file cannot be written, or grows larger than the system lets it.</exception>
    public void Make(CancellationToken cancellation)
    {
        foreach (OutputItem item in _group.Items)
        {
            cancellation.ThrowIfCancellationRequested();
            string path = Path.Combine(_staging.New, item.Name);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            try
            {
                item.Make(path);
            }
            catch (ArgumentOutOfRangeException e) when (e.ParamName == "value")
            {
                // So the base library tells that the system lets no file grow as large.
                throw new IOException($"{item.Name} cannot be written: the disk or a limit of the system takes no file as large.", e);
            }
        }
    }

    /// <summary>Keeps a copy of every file that will be replaced, and notes that the moves begin.</summary>
    public void KeepOld()
    {
        foreach (string name in _group.Items.Select(item => item.Name).Where(name => File.Exists(InPlace(name))))
        {
            File.Copy(InPlace(name), Kept(name));
        }

        _staging.NoteMoves(_group.Items);
    }

    /// <summary>Moves everything into its place.</summary>
    public void Move()
    {
        foreach (OutputItem item in _group.Items)
        {
            item.RequireFree();
            MakeFolder(Path.GetDirectoryName(InPlace(item.Name))!);
            Exchange(Path.Combine(_staging.New, item.Name), InPlace(item.Name), item.IsReplacing, () => Kept(item.Name));
            _moved.Add(item.Name);
        }
    }

    /// <summary>Puts back what was moved.</summary>
    public void Undo()
    {
        foreach (string name in _moved.AsEnumerable().Reverse())
        {
            string old = Path.Combine(_staging.Old, name);
            if (File.Exists(old))
            {
                File.Move(old, InPlace(name), overwrite: true);
            }
            else if (Directory.Exists(old))
            {
                Remove(InPlace(name));
                Directory.Move(old, InPlace(name));
            }
            else
            {
                Remove(InPlace(name));
            }
        }
    }

    /// <summary>Moves a file or a folder over another.</summary>
    /// <param name="made">What is moved.</param>
    /// <param name="place">Where to.</param>
    /// <param name="isReplacing">Whether a file that stands there is replaced.</param>
    /// <param name="kept">Where a folder that stands there is moved to first.</param>
    public static void Exchange(string made, string place, bool isReplacing, Func<string> kept)
    {
        if (!Directory.Exists(made))
        {
            File.Move(made, place, isReplacing);
            return;
        }

        string? aside = Directory.Exists(place) ? kept() : null;
        if (aside is not null)
        {
            Directory.Move(place, aside);
        }

        try
        {
            Directory.Move(made, place);
        }
        catch when (aside is not null)
        {
            Directory.Move(aside, place);
            throw;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _staging.Dispose();
        RemoveFoldersMade();
    }

    private static void Remove(string path)
    {
        if (Directory.Exists(path))
        {
            Directory.Delete(path, recursive: true);
        }

        File.Delete(path);
    }

    private string InPlace(string name) => Path.Combine(Folder, name);

    private string Kept(string name)
    {
        string path = Path.Combine(_staging.Old, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        return path;
    }

    private void MakeFolder(string folder)
    {
        if (!Directory.Exists(folder))
        {
            Directory.CreateDirectory(folder);
            _foldersMade.Add(folder);
        }
    }

    // Innermost first; one that has come to hold a file stays.
    private void RemoveFoldersMade()
    {
        foreach (string folder in _foldersMade.AsEnumerable().Reverse().Where(f => Directory.Exists(f) && !Directory.EnumerateFileSystemEntries(f).Any()))
        {
            Directory.Delete(folder);
        }
    }
}
