namespace SensorLab.Live;

/// <summary>Which files of a folder are whole: unchanged from one poll to the next.</summary>
/// <param name="root">Full path of the folder.</param>
internal sealed class FolderWatch(string root)
{
    /// <summary>Polls without a change after which a file that cannot be read is no longer waited for.</summary>
    private const int PatientPolls = 5;

    private Dictionary<string, Watched> _files = new(StringComparer.Ordinal);

    /// <summary>Whether the folder is there.</summary>
    public bool IsThere { get; private set; } = true;

    /// <summary>Files that lead out of the folder.</summary>
    public IReadOnlyList<string> Outside { get; private set; } = [];

    /// <summary>Files that have just been seen or have just changed.</summary>
    public IReadOnlyList<string> Changing => [.. _files.Where(f => f.Value.Polls == 0).Select(f => f.Key).Order(StringComparer.Ordinal)];

    /// <summary>Looks at the folder.</summary>
    /// <param name="counts">Whether a file counts, by its name.</param>
    /// <returns>Whether a look at the frames would see something new.</returns>
    public bool Poll(Func<string, bool> counts)
    {
        bool wasThere = IsThere;
        IReadOnlyList<string> files = Listed();
        if (!IsThere)
        {
            return wasThere;
        }

        string[] counted = [.. files.Where(counts)];
        Outside = [.. counted.Where(LeadsOut)];
        var next = new Dictionary<string, Watched>(StringComparer.Ordinal);
        bool isNew = !wasThere;
        foreach (string file in counted.Except(Outside))
        {
            string stamp = SetMemory.StampOf(Path.Combine(root, file));
            int polls = _files.TryGetValue(file, out Watched? before) && before.Stamp == stamp ? before.Polls + 1 : 0;
            next[file] = new Watched(stamp, polls);
            isNew |= polls is 0 or 1 or PatientPolls;
        }

        isNew |= _files.Keys.Any(f => !next.ContainsKey(f));
        _files = next;
        return isNew;
    }

    /// <summary>Whether a file is whole, as far as its length and time tell.</summary>
    public bool IsWhole(string file) => _files.TryGetValue(file, out Watched? known) && known.Polls > 0;

    /// <summary>Whether a file may still become whole.</summary>
    public bool IsAwaited(string file) => _files.TryGetValue(file, out Watched? known) && known.Polls < PatientPolls;

    /// <summary>Whether a file lies in the folder, links followed.</summary>
    public bool IsInside(string file) => !LeadsOut(file);

    private IReadOnlyList<string> Listed()
    {
        try
        {
            IReadOnlyList<string> files = FolderListing.FilesBelow(root, CancellationToken.None, []);
            IsThere = true;
            return files;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            IsThere = false;
            return [];
        }
    }

    private bool LeadsOut(string file)
    {
        string place = root;
        foreach (string part in file.Split('/'))
        {
            place = Path.Combine(place, part);
            FileSystemInfo info = Directory.Exists(place) ? new DirectoryInfo(place) : new FileInfo(place);
            if (info.LinkTarget is null)
            {
                continue;
            }

            try
            {
                if (info.ResolveLinkTarget(returnFinalTarget: true) is not { } target || !target.FullName.StartsWith(root + Path.DirectorySeparatorChar, StringComparison.Ordinal))
                {
                    return true;
                }
            }
            catch (IOException)
            {
                return true;
            }
        }

        return false;
    }

    private sealed record Watched(string Stamp, int Polls);
}
