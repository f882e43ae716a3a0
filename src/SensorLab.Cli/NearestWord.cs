namespace SensorLab.Cli;

/// <summary>The word that was meant where one was mistyped.</summary>
internal static class NearestWord
{
    // One slip in three letters is a slip; more is another word.
    private const int LettersASlip = 3;

    /// <summary>The known word that is nearest.</summary>
    /// <param name="word">What was typed.</param>
    /// <param name="known">What can be typed.</param>
    /// <returns>Null where none is near.</returns>
    public static string? Of(string word, IEnumerable<string> known)
    {
        string typed = word.ToLowerInvariant();
        (string Word, int Slips)[] near =
        [
            .. known.Distinct(StringComparer.Ordinal).Select(k => (k, Slips(typed, k.ToLowerInvariant())))
                .Where(k => k.Item2 <= Math.Max(1, Math.Min(typed.TrimStart('-').Length, k.k.TrimStart('-').Length) / LettersASlip))
                .OrderBy(k => k.Item2).ThenBy(k => k.k, StringComparer.Ordinal),
        ];
        return near.Length > 0 ? near[0].Word : null;
    }

    /// <summary>A question to hang on to an error: " Did you mean …?"; empty where no word is near.</summary>
    /// <param name="word">What was typed.</param>
    /// <param name="known">What can be typed.</param>
    public static string Question(string word, IEnumerable<string> known) => Of(word, known) is { } near ? $" Did you mean {near}?" : string.Empty;

    // Letters left out, put in, wrong, or swapped with the next (optimal string alignment).
    private static int Slips(string a, string b)
    {
        int[][] slips = [.. Enumerable.Range(0, a.Length + 1).Select(_ => new int[b.Length + 1])];
        for (int i = 0; i <= a.Length; i++)
        {
            for (int j = 0; j <= b.Length; j++)
            {
                if (i == 0 || j == 0)
                {
                    slips[i][j] = i + j;
                    continue;
                }

                int wrong = slips[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                int least = Math.Min(wrong, 1 + Math.Min(slips[i - 1][j], slips[i][j - 1]));
                bool isSwapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
                slips[i][j] = isSwapped ? Math.Min(least, slips[i - 2][j - 2] + 1) : least;
            }
        }

        return slips[a.Length][b.Length];
    }
}
