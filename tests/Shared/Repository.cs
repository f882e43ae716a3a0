namespace SensorLab.TestData;

/// <summary>Where the repository is: the folder above the tests' binaries that holds the solution.</summary>
internal static class Repository
{
    public static string Root { get; } = Find(new DirectoryInfo(AppContext.BaseDirectory));

    private static string Find(DirectoryInfo folder) =>
        File.Exists(Path.Combine(folder.FullName, "SensorLab.sln")) ? folder.FullName
        : Find(folder.Parent ?? throw new InvalidOperationException("The tests run outside the repository."));
}
