namespace SensorLab.RawFiles.Tests.Support;

/// <summary>The data beside the repository: real files that are not ours to publish.</summary>
internal static class SharedData
{
    /// <summary>The path of shared data; the test is skipped where they are absent.</summary>
    public static string PathOf(params string[] parts)
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "SensorLab.sln")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        string shared = Path.GetFullPath(Path.Combine(folder ?? ".", "..", "shared"));
        Assert.SkipUnless(Directory.Exists(shared), "The shared data are not here.");
        return Path.Combine([shared, .. parts]);
    }
}
