namespace SensorLab.RawFiles.Tests.LibRaw;

/// <summary>The folder of real files beside the repository; absent in a fresh clone.</summary>
internal static class SharedData
{
    private static readonly string? Root = Find();

    /// <summary>The path of a folder or file; skips the test where it is absent.</summary>
    public static string Require(params string[] parts)
    {
        string path = Root is null ? "" : Path.Combine([Root, .. parts]);
        Assert.SkipUnless(Path.Exists(path), $"../shared/{string.Join('/', parts)} is not here.");
        return path;
    }

    /// <summary>Files below a folder by their path relative to it; empty where it is absent.</summary>
    public static IEnumerable<string> List(string pattern, params string[] parts)
    {
        string path = Root is null ? "" : Path.Combine([Root, .. parts]);
        return Directory.Exists(path)
            ? Directory.EnumerateFiles(path, pattern, SearchOption.AllDirectories).Select(f => Path.GetRelativePath(path, f)).Order(StringComparer.Ordinal)
            : [];
    }

    private static string? Find()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "SensorLab.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.Parent is null ? null : Path.Combine(folder.Parent.FullName, "shared");
    }
}
