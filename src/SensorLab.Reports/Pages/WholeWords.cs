namespace SensorLab.Reports.Pages;

/// <summary>Headings whose hyphened names stay on one line: a body's name must not break at its hyphen.</summary>
internal static class WholeWords
{
    // Longer ones would not fit a phone.
    private const int LongestWhole = 16;

    /// <summary>Writes a heading.</summary>
    /// <param name="html">Where to.</param>
    /// <param name="element">The element's name, ours and never from a file.</param>
    /// <param name="text">The words, from anywhere.</param>
    public static void Write(HtmlWriter html, string element, string text)
    {
        using IDisposable heading = html.In(element);
        foreach ((int index, string word) in text.Split(' ').Index())
        {
            html.Text(index == 0 ? string.Empty : " ");
            if (word.Contains('-', StringComparison.Ordinal) && word.Length <= LongestWhole)
            {
                html.Leaf("span", word, ("class", "whole"));
            }
            else
            {
                html.Text(word);
            }
        }
    }
}
