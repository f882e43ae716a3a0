using System.Globalization;

namespace SensorLab.Reports;

/// <summary>Text that comes from files: names and notes that may hold anything.</summary>
internal static class ForeignText
{
    /// <summary>The text on one line, without what would steer a terminal, a page or the direction of reading.</summary>
    /// <param name="text">Text from metadata; null where absent.</param>
    /// <returns>Letters, digits and signs, with single spaces between words.</returns>
    public static string OneLine(string? text) => string.Join(
        ' ',
        new string([.. (text ?? string.Empty).Select(c => IsUnsafe(c) ? ' ' : c)]).Split(' ', StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Whether a sign would break a layout, steer a terminal or turn the direction of reading.</summary>
    /// <param name="c">The sign.</param>
    public static bool IsUnsafe(char c) => c >= '\uFFFE' || char.GetUnicodeCategory(c) is
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate or
        UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;
}
