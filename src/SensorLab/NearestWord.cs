namespace SensorLab;

/// <summary>The word that someone meant.</summary>
internal static class NearestWord
{
    /// <summary>Slips of the hand: a letter too many, missing, wrong, or two in the wrong order; two of them in a long word.</summary>
    private const int LettersASlip = 4;

    private const int MostSlips = 2;

    /// <summary>The valid word nearest to a written one, in any case of letters.</summary>
    /// <param name="written">What was written.</param>
    /// <param name="words">The valid words.</param>
    /// <returns>The word; null where none is near, or two are equally.</returns>
    public static string? Of(string written, IEnumerable<string> words)
    {
        string own = written.ToLowerInvariant();
        int most = Math.Min(MostSlips, own.Length / LettersASlip);
        (string Word, int Slips)[] near = [.. words.Select(w => (Word: w, Slips: SlipsBetween(own, w.ToLowerInvariant()))).Where(w => w.Slips <= most).OrderBy(w => w.Slips).Take(2)];
        return near.Length == 0 || (near.Length == 2 && near[0].Slips == near[1].Slips) ? null : near[0].Word;
    }

    /// <summary>"Did you mean X? " where some word is near; empty where none is.</summary>
    /// <inheritdoc cref="Of"/>
    public static string Question(string written, IEnumerable<string> words) => Of(written, words) is { } word ? $"Did you mean {word}? " : string.Empty;

    // Restricted edit distance: insertions, deletions, replacements, neighbours exchanged.
    private static int SlipsBetween(string one, string other)
    {
        int[][] table = [.. Enumerable.Range(0, one.Length + 1).Select(_ => new int[other.Length + 1])];
        for (int i = 0; i <= one.Length; i++)
        {
            for (int j = 0; j <= other.Length; j++)
            {
                if (i == 0 || j == 0)
                {
                    table[i][j] = i + j;
                    continue;
                }

                int replaced = table[i - 1][j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1);
                table[i][j] = Math.Min(replaced, 1 + Math.Min(table[i - 1][j], table[i][j - 1]));
                if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                {
                    table[i][j] = Math.Min(table[i][j], 1 + table[i - 2][j - 2]);
                }
            }
        }

        return table[one.Length][other.Length];
    }
}
