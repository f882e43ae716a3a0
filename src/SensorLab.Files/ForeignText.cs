using System.Globalization;
using System.Text;

namespace SensorLab.Files;

/// <summary>Text that comes from files: names and notes that may hold anything.</summary>
public static class ForeignText
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

    /// <summary>The text with all that would steer a terminal or turn the direction of reading spelled out, as \u001B.</summary>
    /// <param name="text">Text from anywhere.</param>
    /// <param name="keepsLines">Whether line feeds stay: they end lines of our own.</param>
    /// <returns>The same text where it is harmless. In a JSON document what is spelled out is read back as it was.</returns>
    public static string Visible(ReadOnlySpan<char> text, bool keepsLines)
    {
        var visible = new StringBuilder(text.Length);
        while (text.Length > 0)
        {
            bool isWhole = Rune.DecodeFromUtf16(text, out Rune sign, out int length) == System.Buffers.OperationStatus.Done;
            if (isWhole && (IsHarmless(sign) || (keepsLines && sign.Value == '\n')))
            {
                visible.Append(text[..length]);
            }
            else
            {
                foreach (char unit in text[..length])
                {
                    visible.Append(CultureInfo.InvariantCulture, $"\\u{(int)unit:X4}");
                }
            }

            text = text[length..];
        }

        return visible.ToString();
    }

    /// <summary>The text as a cell that no spreadsheet runs: what begins like a formula stands behind an apostrophe.</summary>
    /// <param name="text">Text from anywhere.</param>
    /// <returns>One line.</returns>
    public static string InSpreadsheet(string? text) =>
        OneLine(text) is var line && BeginsLikeFormula(line) ? "'" + line : line;

    /// <summary>The text as a cell that no spreadsheet runs, and that <see cref="OfCell"/> gives back to the last sign.</summary>
    /// <param name="text">Text from anywhere.</param>
    public static string InCell(string text) => BeginsLikeFormula(text.AsSpan().TrimStart('\'')) ? "'" + text : text;

    /// <summary>What was written as a cell: an apostrophe before what begins like a formula is none of the text.</summary>
    /// <param name="cell">The cell, by <see cref="InCell"/> or by hand.</param>
    public static string OfCell(string cell) => cell.StartsWith('\'') && BeginsLikeFormula(cell.AsSpan().TrimStart('\'')) ? cell[1..] : cell;

    /// <summary>The text as a field of CSV (RFC 4180) that no spreadsheet runs.</summary>
    /// <param name="text">Text from anywhere.</param>
    public static string CsvField(string? text) =>
        InSpreadsheet(text) is var cell && cell.AsSpan().IndexOfAny(',', '"') >= 0 ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;

    private static bool BeginsLikeFormula(ReadOnlySpan<char> text) => text.Length > 0 && "=+-@\uFF1D\uFF0B\uFF0D\uFF20".Contains(text[0], StringComparison.Ordinal);

    private static bool IsHarmless(Rune sign) => Rune.GetUnicodeCategory(sign) is not (
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);
}
