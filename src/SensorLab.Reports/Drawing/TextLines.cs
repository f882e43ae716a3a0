namespace SensorLab.Reports.Drawing;

/// <summary>Breaks words into lines.</summary>
internal static class TextLines
{
    private const string Ellipsis = "…";
    private const string Breaks = "/\\";

    // Longer than any line: a word without end is measured piece by piece.
    private const int LongestMeasured = 400;

    // A last line shorter than this share of the width looks lost.
    private const float OrphanShare = 0.2f;

    /// <summary>Breaks at spaces, and inside a word that is wider than a line.</summary>
    /// <param name="text">The words.</param>
    /// <param name="width">Width of a line.</param>
    /// <param name="measure">The width of words.</param>
    public static IReadOnlyList<string> Wrap(string text, float width, Func<string, float> measure)
    {
        var lines = new List<string>();
        string line = string.Empty;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Chop(w, width, measure)))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length > 0 && measure(longer) > width)
            {
                lines.Add(line);
                line = word;
            }
            else
            {
                line = longer;
            }
        }

        if (line.Length > 0)
        {
            lines.Add(line);
        }

        return lines;
    }

    /// <summary>Breaks at spaces so that no lone short word is left for the last line.</summary>
    /// <param name="text">The words.</param>
    /// <param name="width">Width of a line.</param>
    /// <param name="measure">The width of words.</param>
    public static IReadOnlyList<string> WrapWithoutOrphan(string text, float width, Func<string, float> measure)
    {
        IReadOnlyList<string> lines = Wrap(text, width, measure);
        if (lines.Count < 2 || measure(lines[^1]) > OrphanShare * width)
        {
            return lines;
        }

        IReadOnlyList<string> narrower = Wrap(text, width * (1 - OrphanShare), measure);
        return narrower.Count == lines.Count ? narrower : lines;
    }

    /// <summary>Keeps the first lines; the last of them ends in an ellipsis where more would follow.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="most">How many may stay, 1 or more.</param>
    public static IReadOnlyList<string> Clip(IReadOnlyList<string> lines, int most) =>
        lines.Count <= most ? lines : [.. lines.Take(most - 1), lines[most - 1][..Math.Max(1, lines[most - 1].Length - 2)] + Ellipsis];

    /// <summary>The longest part of a text that stays on one line: names break behind their folders, never inside.</summary>
    /// <param name="text">The words.</param>
    public static string LongestPiece(string text) => Pieces(text).MaxBy(p => p.Length) ?? string.Empty;

    private static IEnumerable<string> Pieces(string text)
    {
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            int start = 0;
            for (int i = 0; i < word.Length; i++)
            {
                if (i == word.Length - 1 || Breaks.Contains(word[i]))
                {
                    yield return word[start..(i + 1)];
                    start = i + 1;
                }
            }
        }
    }

    // Behind the last folder that fits; a word without any, such as a hash, wherever it is full.
    private static int PieceOf(string word, int length)
    {
        int at = word.LastIndexOfAny([.. Breaks], length - 1);
        return at > 0 ? at + 1 : length;
    }

    private static IEnumerable<string> Chop(string word, float width, Func<string, float> measure)
    {
        string rest = word;
        while (rest.Length > LongestMeasured || (rest.Length > 1 && measure(rest) > width))
        {
            int length = Math.Min(rest.Length - 1, LongestMeasured);
            while (length > 1 && measure(rest[..length]) > width)
            {
                length -= Math.Max(1, length / 8);
            }

            length = PieceOf(rest, Math.Max(1, length));
            yield return rest[..length];
            rest = rest[length..];
        }

        yield return rest;
    }
}
