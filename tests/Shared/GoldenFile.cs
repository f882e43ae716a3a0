namespace SensorLab.TestData;

/// <summary>Approved texts and files. They fail when missing and change only when <see cref="ApproveVariable"/> is 1.</summary>
internal static class GoldenFile
{
    public const string ApproveVariable = "SENSORLAB_APPROVE_GOLDEN";

    /// <summary>Compares a text with an approved one.</summary>
    /// <param name="actual">The text now.</param>
    /// <param name="pathInRepository">The approved file, from the repository's root.</param>
    public static void Verify(string actual, string pathInRepository)
    {
        string text = actual.ReplaceLineEndings("\n").TrimEnd() + "\n";
        string path = Approve(pathInRepository, file => File.WriteAllText(file, text));
        Assert.True(File.Exists(path), $"{pathInRepository} is missing. If the text below is right, run again with {ApproveVariable}=1.\n{text}");
        Assert.Equal(File.ReadAllText(path), text);
    }

    /// <summary>Compares a file with an approved one, byte by byte.</summary>
    /// <param name="actual">The bytes now.</param>
    /// <param name="pathInRepository">The approved file, from the repository's root.</param>
    public static void Verify(byte[] actual, string pathInRepository)
    {
        string path = Approve(pathInRepository, file => File.WriteAllBytes(file, actual));
        Assert.True(File.Exists(path), $"{pathInRepository} is missing. If what is made now is right, run again with {ApproveVariable}=1.");
        Assert.True(File.ReadAllBytes(path).AsSpan().SequenceEqual(actual), $"{pathInRepository} is not what is made now. If that is right, run again with {ApproveVariable}=1.");
    }

    private static string Approve(string pathInRepository, Action<string> write)
    {
        string path = Path.Combine(Repository.Root, pathInRepository);
        if (Environment.GetEnvironmentVariable(ApproveVariable) == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            write(path);
        }

        return path;
    }
}
