namespace SensorLab.Cli;

/// <summary>Finds frame sets: folders with a role's folder, or a frames.csv, in them.</summary>
internal static class SetFolders
{
    private const string Table = "frames.csv";

    private static readonly EnumerationOptions Plainly = new() { AttributesToSkip = FileAttributes.ReparsePoint, IgnoreInaccessible = false };

    /// <summary>The frame sets in a folder, by their paths: itself, or those below it; none lies in another.</summary>
    /// <param name="folder">The folder.</param>
    /// <returns>Itself where it holds no frame set: whoever measures it is told why it is none.</returns>
    /// <exception cref="DirectoryNotFoundException">There is none.</exception>
    /// <exception cref="IOException">It cannot be listed.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be listed.</exception>
    public static IReadOnlyList<string> Below(string folder)
    {
        if (!Directory.Exists(folder))
        {
            throw new DirectoryNotFoundException($"There is no folder {folder}: name one with frame sets in it.");
        }

        string[] sets = [.. Search(Path.TrimEndingDirectorySeparator(folder))];
        return sets.Length > 0 ? sets : [folder];
    }

    // Links are not followed: they may lead in a circle.
    private static IEnumerable<string> Search(string folder)
    {
        string[] inner = [.. Directory.EnumerateDirectories(folder, "*", Plainly).Order(StringComparer.Ordinal)];
        return File.Exists(Path.Combine(folder, Table)) || inner.Any(IsRole) ? [folder] : inner.SelectMany(Search);
    }

    private static bool IsRole(string folder) => FrameSetFiles.IsRoleFolder(Path.GetFileName(folder));
}
