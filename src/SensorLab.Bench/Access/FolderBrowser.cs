using SensorLab.RawFiles;

namespace SensorLab.Bench.Access;

/// <summary>The folders of this machine, to choose from: names alone, nothing in them is opened.</summary>
internal static class FolderBrowser
{
    private const int MostShown = 500;

    private const int MostCounted = 5000;

    /// <summary>Where choosing begins.</summary>
    public static string Home => Environment.GetFolderPath(Environment.SpecialFolder.UserProfile) is { Length: > 0 } home ? home : Path.GetFullPath("/");

    /// <summary>Lists a folder.</summary>
    /// <param name="path">Its full path; null or empty for the user's home.</param>
    /// <exception cref="IOException">It is no folder, or cannot be listed.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be listed.</exception>
    public static Api.FolderListing List(string? path)
    {
        string full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(string.IsNullOrWhiteSpace(path) ? Home : path));
        var folder = new DirectoryInfo(full.Length == 0 ? "/" : full);
        if (!folder.Exists)
        {
            throw new DirectoryNotFoundException($"There is no folder {full}.");
        }

        FileInfo[] files = [.. folder.EnumerateFiles().Where(f => !f.Name.StartsWith('.')).Take(MostCounted)];
        return new Api.FolderListing(
            folder.FullName,
            folder.Parent?.FullName,
            [.. folder.EnumerateDirectories().Select(d => d.Name).Where(n => !n.StartsWith('.')).Order(StringComparer.OrdinalIgnoreCase).Take(MostShown)],
            files.Count(f => RawFileOpener.IsRawFile(f.Name)),
            Named(files, n => Ends(n, ".json") || Ends(n, ".zip")),
            Named(files, n => Ends(n, ".pem") && !Ends(n, ".pub.pem")));
    }

    private static IReadOnlyList<string> Named(FileInfo[] files, Func<string, bool> counts) =>
        [.. files.Select(f => f.Name).Where(counts).Order(StringComparer.OrdinalIgnoreCase).Take(MostShown)];

    private static bool Ends(string name, string end) => name.EndsWith(end, StringComparison.OrdinalIgnoreCase);
}
