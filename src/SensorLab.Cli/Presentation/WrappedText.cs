namespace SensorLab.Cli.Presentation;

/// <summary>Text broken between words.</summary>
internal static class WrappedText
{
    /// <summary>The width that every terminal has.</summary>
    public const int Width = 80;

    /// <summary>Breaks a text into lines; a word longer than a line stays whole.</summary>
    /// <param name="text">The text, on one line.</param>
    /// <param name="first">What the first line begins with.</param>
    /// <param name="rest">What the others begin with.</param>
    public static IEnumerable<string> Lines(string text, string first = "", string rest = "")
    {
        string line = first;
        bool isEmpty = true;
        foreach (string word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
        {
            if (!isEmpty && line.Length + 1 + word.Length > Width)
            {
                yield return line;
                line = rest;
                isEmpty = true;
            }

            line = isEmpty ? line + word : $"{line} {word}";
            isEmpty = false;
        }

        yield return line;
    }
}
