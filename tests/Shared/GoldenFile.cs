namespace SensorLab.TestData;

/// <summary>Approved texts. They fail when missing and change only when <see cref="ApproveVariable"/> is 1.</summary>
internal static class GoldenFile
{
    public const string ApproveVariable = "SENSORLAB_APPROVE_GOLDEN";

    /// <summary>Compares a text with an approved one.</summary>
    /// <param name="actual">The text now.</param>
    /// <param name="pathInRepository">The approved file, from the repository's root.</param>
    public static void Verify(string actual, string pathInRepository)
    {
        string path = Path.Combine(Repository.Root, pathInRepository);
        string text = actual.ReplaceLineEndings("\n").TrimEnd() + "\n";
        if (Environment.GetEnvironmentVariable(ApproveVariable) == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, text);
        }

        Assert.True(File.Exists(path), $"{pathInRepository} is missing. If the text below is right, run again with {ApproveVariable}=1.\n{text}");
        Assert.Equal(File.ReadAllText(path), text);
    }
}
