using System.Globalization;

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

    /// <summary>Compares a text with an approved one: words as they are, numbers by a relative tolerance, since processors differ in their last digits.</summary>
    /// <param name="actual">The text now, words and numbers parted by spaces and line ends.</param>
    /// <param name="pathInRepository">The approved file, from the repository's root.</param>
    /// <param name="tolerance">Relative difference of two numbers that passes.</param>
    public static void VerifyNumbers(string actual, string pathInRepository, double tolerance)
    {
        string path = Approve(pathInRepository, file => File.WriteAllText(file, actual));
        Assert.True(File.Exists(path), $"{pathInRepository} is missing. If the text below is right, run again with {ApproveVariable}=1.\n{actual}");
        string[] approved = File.ReadAllLines(path);
        string[] now = actual.TrimEnd().Split('\n');
        string[] changed = [.. now.Zip(approved).Where(l => !IsSame(l.Second, l.First, tolerance)).Select(l => $"{l.Second}\n{l.First}")];
        Assert.True(changed.Length == 0 && now.Length == approved.Length, $"{pathInRepository}: {now.Length} lines and not {approved.Length}, {changed.Length} of them others, approved and now. If they are right, run again with {ApproveVariable}=1.\n{string.Join('\n', changed)}");
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

    private static bool IsSame(string approved, string actual, double tolerance)
    {
        string[] one = approved.Split(' ');
        string[] other = actual.Split(' ');
        return one.Length == other.Length && one.Zip(other).All(w => w.First == w.Second
            || (double.TryParse(w.First, CultureInfo.InvariantCulture, out double a) && double.TryParse(w.Second, CultureInfo.InvariantCulture, out double b) && Math.Abs(a - b) <= tolerance * Math.Abs(a)));
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
