namespace SensorLab.RawFiles.Metadata;

/// <summary>Tells a body's own firmware from the name of a program in TIFF's tag Software.</summary>
/// <remarks>
/// The rule: a body writes its version there, with its own name at most; a program writes its own name. So
/// the text names a program if it holds a word of letters alone, three or more of them, that is neither a
/// word of the maker's or model's name nor one of those that go with version numbers. No product is listed.
/// A model or maker that is not known leaves the rule stricter, never laxer.
/// </remarks>
internal static class ConverterName
{
    private const int ShortestWordLetters = 3;

    private static readonly HashSet<string> VersionWords = new(StringComparer.OrdinalIgnoreCase)
    {
        "version", "ver", "vers", "firmware", "rev", "revision", "release", "rel", "build", "beta",
        "camera", "digital", "body", "model", "series", "system", "main", "final", "mark",
    };

    /// <summary>Whether a text names a program.</summary>
    /// <param name="software">The text.</param>
    /// <param name="names">What the file calls maker and model.</param>
    public static bool Names(string software, params IEnumerable<string?> names)
    {
        HashSet<string> own = new(names.OfType<string>().SelectMany(Words), StringComparer.OrdinalIgnoreCase);
        return Words(software).Any(word =>
            word.Length >= ShortestWordLetters && word.All(char.IsLetter) && !VersionWords.Contains(word) && !own.Contains(word));
    }

    private static IEnumerable<string> Words(string text)
    {
        int start = 0;
        for (int i = 0; i <= text.Length; i++)
        {
            if (i == text.Length || !char.IsLetterOrDigit(text[i]))
            {
                if (i > start)
                {
                    yield return text[start..i];
                }

                start = i + 1;
            }
        }
    }
}
