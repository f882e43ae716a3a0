namespace SensorLab;

/// <summary>The files below a folder, links followed once: loops of links end, and no folder is listed twice.</summary>
internal static class FolderListing
{
    /// <summary>Folders nest no deeper than this in any frame set; a guard against file systems that loop unseen.</summary>
    private const int DeepestLevel = 64;

    /// <summary>Lists the files.</summary>
    /// <param name="folder">Full path of the folder.</param>
    /// <param name="cancellation">Stops the listing.</param>
    /// <param name="unlisted">Is told of folders below that cannot be listed: not ours to read, or of a name that is no text.</param>
    /// <returns>Paths inside the folder with forward slashes, in ordinal order.</returns>
    /// <exception cref="IOException">The folder itself cannot be listed.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder itself may not be listed.</exception>
    public static IReadOnlyList<string> FilesBelow(string folder, CancellationToken cancellation, ICollection<string>? unlisted = null)
    {
        var files = new List<string>();
        var seen = new HashSet<string>(StringComparer.Ordinal) { RealPathOf(new DirectoryInfo(folder)) ?? folder };
        Visit(new DirectoryInfo(folder), string.Empty, 0);
        files.Sort(StringComparer.Ordinal);
        return files;

        void Visit(DirectoryInfo directory, string prefix, int depth)
        {
            cancellation.ThrowIfCancellationRequested();
            foreach (FileInfo file in directory.EnumerateFiles())
            {
                files.Add(prefix + file.Name);
            }

            if (depth == DeepestLevel)
            {
                return;
            }

            foreach (DirectoryInfo child in directory.EnumerateDirectories().OrderBy(d => d.Name, StringComparer.Ordinal))
            {
                if (RealPathOf(child) is { } real && seen.Add(real))
                {
                    VisitBelow(new DirectoryInfo(real), $"{prefix}{child.Name}/", depth + 1);
                }
            }
        }

        void VisitBelow(DirectoryInfo directory, string prefix, int depth)
        {
            try
            {
                Visit(directory, prefix, depth);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                unlisted?.Add(prefix);
            }
        }
    }

    /// <summary>Where a folder really is; null for a link that leads nowhere or to itself.</summary>
    private static string? RealPathOf(DirectoryInfo directory)
    {
        if (directory.LinkTarget is null)
        {
            return Path.TrimEndingDirectorySeparator(directory.FullName);
        }

        try
        {
            FileSystemInfo? target = directory.ResolveLinkTarget(returnFinalTarget: true);
            return target is { Exists: true } ? Path.TrimEndingDirectorySeparator(target.FullName) : null;
        }
        catch (IOException)
        {
            return null;
        }
    }
}
