using System.Buffers;

namespace SensorLab.Publishing.Archive;

/// <summary>What a path in a bundle may be: relative, downwards, of letters that every file system takes.</summary>
internal static class ArchivePath
{
    /// <summary>The longest path, in characters: ours have 50 at most.</summary>
    public const int LengthLimit = 200;

    private static readonly SearchValues<char> Letters =
        SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_./");

    /// <summary>What is wrong with a path, to follow it in a sentence; null where nothing is.</summary>
    /// <param name="path">The path.</param>
    public static string? Fault(string path)
    {
        string[] steps = path.Split('/', '\\');
        return path switch
        {
            "" => "is empty",
            { Length: > LengthLimit } => "is longer than any path in a bundle",
            ['/' or '\\', ..] or [_, ':', ..] => "is absolute: unpacked it would be written outside its folder",
            _ when steps.Contains("..") => "climbs: unpacked it would be written outside its folder",
            _ when path.Contains('\\', StringComparison.Ordinal) => "has backslashes, which are folders on one system and letters on another",
            [.., '/'] => "is a folder; bundles hold files alone",
            _ when steps.Any(step => step is "" or "." || step.EndsWith('.')) => "has a step that file systems read differently",
            _ when path.AsSpan().ContainsAnyExcept(Letters) => "has characters that no path in a bundle has",
            _ => null,
        };
    }
}
