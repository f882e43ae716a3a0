using System.Text.RegularExpressions;

namespace SensorLab.Publishing.Bundles;

/// <summary>Takes serial number, names of files and dates out of words that people and programs wrote.</summary>
internal sealed partial class WordCleaner
{
    private const string LeftOut = "(left out)";

    // Shorter ones are everyday numbers: taking every 5 out of the words would leave nonsense.
    private const int ShortestSerial = 4;

    private readonly string? _serialNumber;

    private readonly (string Name, string Number)[] _names;

    private readonly Dictionary<string, string> _stems;

    private readonly HashSet<string> _folders;

    public WordCleaner(string? serialNumber, FrameNumbers frames)
    {
        _serialNumber = serialNumber is { Length: >= ShortestSerial } ? serialNumber : null;
        _names = [.. frames.All.Select(f => (f.Key, f.Value)).OrderByDescending(f => f.Key.Length)];
        _stems = frames.All
            .GroupBy(f => Path.GetFileNameWithoutExtension(f.Key), StringComparer.OrdinalIgnoreCase)
            .Where(group => group.Key.Length > 0)
            .ToDictionary(group => group.Key, group => group.First().Value, StringComparer.OrdinalIgnoreCase);
        _folders = [.. frames.All.Keys.SelectMany(FoldersOf).Where(folder => folder.Contains('/', StringComparison.Ordinal))];
    }

    /// <summary>The words without what tells whose they are; null stays null.</summary>
    /// <param name="words">The words.</param>
    public string? Clean(string? words)
    {
        if (words is null)
        {
            return null;
        }

        foreach ((string name, string number) in _names.Where(n => words.Contains(n.Name, StringComparison.OrdinalIgnoreCase)).ToArray())
        {
            words = words.Replace(name, number, StringComparison.OrdinalIgnoreCase);
        }

        words = FileName().Replace(words, match => _stems.GetValueOrDefault(match.Groups["stem"].Value, match.Value));
        words = Stem().Replace(words, match => IsTelling(match.Value) ? _stems.GetValueOrDefault(match.Value, match.Value) : match.Value);
        foreach (string folder in _folders.OrderByDescending(f => f.Length))
        {
            words = words.Replace(folder, LeftOut, StringComparison.OrdinalIgnoreCase);
        }

        words = Date().Replace(words, LeftOut);
        return _serialNumber is null ? words : words.Replace(_serialNumber, LeftOut, StringComparison.OrdinalIgnoreCase);
    }

    private static IEnumerable<string> FoldersOf(string file)
    {
        for (int slash = file.LastIndexOf('/'); slash > 0; slash = file.LastIndexOf('/', slash - 1))
        {
            yield return file[..slash];
        }
    }

    // P0012 names a file, 1600 may be an ISO and dark a role.
    private static bool IsTelling(string stem) => stem.Length > 2 && stem.Any(char.IsAsciiDigit) && stem.Any(c => !char.IsAsciiDigit(c));

    [GeneratedRegex(@"(?<![\w-])(?<stem>[\w-]+)\.[A-Za-z]\w{1,4}\b")]
    private static partial Regex FileName();

    [GeneratedRegex(@"(?<![\w/-])[\w-]+(?![\w-])")]
    private static partial Regex Stem();

    [GeneratedRegex(@"\b\d{4}[-:/.]\d{2}[-:/.]\d{2}([T ]\d{2}:\d{2}(:\d{2}(\.\d+)?)?)?(Z|[+-]\d{2}:?\d{2})?")]
    private static partial Regex Date();
}
