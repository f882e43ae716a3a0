namespace SensorLab.Files;

/// <summary>A folder of a run's own beside what it will replace; what a killed run left there is cleared by the next.</summary>
/// <remarks>
/// A lock file of the same name is held as long as the run lives: whoever can take it knows that its run is dead. A dead run
/// that had begun to put its files in place is brought to its end, for half of them may stand there already.
/// </remarks>
internal sealed class StagingFolder : IDisposable
{
    private const string Prefix = ".sensorlab-";
    private const string LockSuffix = ".lock";
    private const string NewFiles = "new";
    private const string OldFiles = "old";
    private const string Moves = "moves";
    private const char Replacing = '=';
    private const char Adding = '+';
    private const int Attempts = 8;

    private readonly FileStream _lock;

    /// <summary>Makes the folder.</summary>
    /// <param name="parent">Where: on the disk of what will be replaced.</param>
    /// <exception cref="IOException">It cannot be made.</exception>
    /// <exception cref="UnauthorizedAccessException">The parent may not be written to.</exception>
    public StagingFolder(string parent)
    {
        Parent = parent;
        ClearDead(parent);
        _lock = Locked(parent, out string folder);
        Folder = folder;
        try
        {
            Directory.CreateDirectory(New);
        }
        catch
        {
            _lock.Dispose();
            throw;
        }
    }

    /// <summary>The folder that it lies in.</summary>
    public string Parent { get; }

    /// <summary>Where new files are made.</summary>
    public string New => Path.Combine(Folder, NewFiles);

    /// <summary>Where old files are kept until the new ones are in place.</summary>
    public string Old => Path.Combine(Folder, OldFiles);

    private string Folder { get; }

    /// <summary>Notes that all new files are whole and are put in place from here on.</summary>
    /// <param name="items">What is moved, in that order.</param>
    public void NoteMoves(IEnumerable<OutputItem> items)
    {
        string note = Path.Combine(Folder, Moves);
        File.WriteAllLines(note + ".part", items.Select(item => (item.IsReplacing ? Replacing : Adding) + item.Name));
        File.Move(note + ".part", note);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            Directory.Delete(Folder, recursive: true);
        }
        catch (DirectoryNotFoundException)
        {
            // Someone has cleared it away: nothing is left to do.
        }
        finally
        {
            _lock.Dispose();
        }
    }

    /// <summary>Whether a name in a folder is of staging: no file of anyone's.</summary>
    /// <param name="name">A file's or folder's name.</param>
    public static bool IsStaging(string name) => name.StartsWith(Prefix, StringComparison.Ordinal);

    private static FileStream Locked(string parent, out string folder)
    {
        for (int attempt = 1; ; attempt++)
        {
            folder = Path.Combine(parent, Prefix + Path.GetRandomFileName());
            try
            {
                var held = new FileStream(folder + LockSuffix, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
                if (File.Exists(folder + LockSuffix))
                {
                    return held;
                }

                // Between the file's making and its locking another run took it for a dead one's, and away: who looks now sees a folder without a lock.
                held.Dispose();
                if (attempt >= Attempts)
                {
                    throw new IOException($"Other runs keep {parent} too busy to write there.");
                }
            }
            catch (IOException) when (attempt < Attempts)
            {
                // The same, but the other run still holds it: take another name.
            }
        }
    }

    private static void ClearDead(string parent)
    {
        foreach (string path in Directory.EnumerateFiles(parent, $"{Prefix}*{LockSuffix}").Where(PlainFile.IsPlain))
        {
            ClearUnderLock(parent, path[..^LockSuffix.Length], FileMode.Open);
        }

        // A run takes its lock before it makes its folder: one without a lock is of a run that could not clear it away.
        foreach (string folder in Directory.EnumerateDirectories(parent, Prefix + "*").Where(folder => !File.Exists(folder + LockSuffix)))
        {
            ClearUnderLock(parent, folder, FileMode.CreateNew);
        }
    }

    private static void ClearUnderLock(string parent, string folder, FileMode mode)
    {
        try
        {
            using var dead = new FileStream(folder + LockSuffix, mode, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
            Clear(parent, folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Its run lives, or it is another user's: it is not ours to clear.
        }
    }

    private static void Clear(string parent, string folder)
    {
        var found = new DirectoryInfo(folder);
        if (!found.Exists || found.LinkTarget is not null)
        {
            return;
        }

        string note = Path.Combine(folder, Moves);
        if (File.Exists(note))
        {
            foreach (string line in File.ReadLines(note).Where(l => l.Length > 1 && IsBelow(l[1..])))
            {
                string made = Path.Combine(folder, NewFiles, line[1..]);
                if (Path.Exists(made))
                {
                    StagedGroup.Exchange(made, Path.Combine(parent, line[1..]), line[0] == Replacing, () => Path.Combine(folder, Path.GetRandomFileName()));
                }
            }
        }

        found.Delete(recursive: true);
    }

    // The note is ours, but the folder may be anyone's: nothing is moved out of it.
    private static bool IsBelow(string name) => !Path.IsPathRooted(name) && !name.Split('/', '\\').Contains("..");
}
