namespace SensorLab.Reports.Tests.Samples;

/// <summary>Where the repository lies that the tests were built from.</summary>
internal static class RepositoryFolder
{
    public static string Path { get; } = Find();

    private static string Find()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(System.IO.Path.Combine(folder.FullName, "SensorLab.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("SensorLab.sln lies in no folder above the tests.");
    }
}
