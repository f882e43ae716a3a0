using System.Globalization;
using CsvHelper;
using SensorLab.Files;

namespace SensorLab;

/// <summary>The cells of one row of <c>frames.csv</c>, read as what their column holds.</summary>
internal sealed class FrameTableCells(CsvReader csv, string[] columns)
{
    /// <summary>The sign for seconds.</summary>
    public const char DoublePrime = '\u2033';

    // Longer than any name, and as long as a profile's texts may be.
    private const int LongestText = 2000;

    private const int HighestWhole = 100_000_000;

    public int Line => (int)csv.LineNumber;

    /// <summary>The cell's text, an apostrophe before what begins like a formula left out; null where it is blank or the table has no such column.</summary>
    public string? Text(string column)
    {
        int index = Array.IndexOf(columns, column);
        return index < 0 || ForeignText.OfCell(csv.GetString(index).Trim()).Trim() is not { Length: > 0 } text ? null
            : text.Length <= LongestText ? text
            : throw Fault(string.Create(CultureInfo.InvariantCulture, $"The column {column} holds {text.Length} characters."), string.Create(CultureInfo.InvariantCulture, $"Give it {LongestText} at most."));
    }

    public int? WholeNumber(string column, int lowest)
    {
        if (Text(column) is not { } text)
        {
            return null;
        }

        bool isNumber = int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number);
        return isNumber && number >= lowest && number <= HighestWhole ? number : throw BadValue(column, text, "a whole number above zero");
    }

    /// <summary>A time as seconds or as a fraction of one, as cameras show it: 0.008, 1/125, 2", 2"5, 2 s.</summary>
    public double? Seconds(string column)
    {
        if (Text(column) is not { } text)
        {
            return null;
        }

        string[] parts = WithoutUnit(text).Split('/');
        double? seconds = parts.Length switch
        {
            1 => Parse(parts[0]),
            2 => Parse(parts[0]) / Parse(parts[1]),
            _ => null,
        };
        return seconds is > 0 and < 1e6 ? seconds : throw BadValue(column, text, "seconds above zero, as 0.008, 1/125 or 2\"");
    }

    public double? Number(string column, Func<double, bool> isValid, string expected)
    {
        if (Text(column) is not { } text)
        {
            return null;
        }

        return Parse(text) is { } number && isValid(number) ? number : throw BadValue(column, text, expected);
    }

    public FrameTableException Fault(string reason, string remedy) => new(Line, reason, remedy);

    // Cameras write 2" for two seconds and 2"5 for two and a half.
    private static string WithoutUnit(string text)
    {
        string plain = text.Replace("''", "\"", StringComparison.Ordinal).Replace(DoublePrime, '"').Replace('\u201D', '"');
        plain = plain.EndsWith('s') ? plain[..^1].TrimEnd() : plain;
        return plain.EndsWith('"') ? plain[..^1].TrimEnd() : plain.Replace('"', '.');
    }

    private static double? Parse(string text)
    {
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        string plain = text.Contains('.', StringComparison.Ordinal) ? text : text.Replace(',', '.');
        return double.TryParse(plain.Trim(), Style, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? number : null;
    }

    private FrameTableException BadValue(string column, string text, string expected) =>
        Fault($"The column {column} holds \"{text}\", which is not {expected}.", "Correct the cell, or leave it blank.");
}
