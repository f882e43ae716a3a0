namespace SensorLab.TestData;

/// <summary>A folder with all that is in it, empty folders too, made a second time.</summary>
internal static class FolderCopy
{
    /// <summary>Copies a folder.</summary>
    /// <param name="from">The folder.</param>
    /// <param name="to">Where to: a folder that is not there, or lacks its files.</param>
    public static void Of(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (string folder in Directory.EnumerateDirectories(from))
        {
            Of(folder, Path.Combine(to, Path.GetFileName(folder)));
        }

        foreach (string file in Directory.EnumerateFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }
    }
}
