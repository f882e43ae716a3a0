using System.Globalization;
using CsvHelper;

namespace SensorLab;

/// <summary>The cells of one row of <c>frames.csv</c>, read as what their column holds.</summary>
internal sealed class FrameTableCells(CsvReader csv)
{
    public int Line => (int)csv.LineNumber;

    /// <summary>The cell's text; null where it is blank or the table has no such column.</summary>
    public string? Text(string column) =>
        csv.TryGetFieldIndex(column, out int index) && csv.GetString(index).Trim() is { Length: > 0 } text ? text : null;

    public int? WholeNumber(string column, int lowest)
    {
        if (Text(column) is not { } text)
        {
            return null;
        }

        bool isNumber = int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number);
        return isNumber && number >= lowest ? number : throw BadValue(column, text, "a whole number above zero");
    }

    /// <summary>A time as seconds or as a fraction of one, as cameras show it: 0.008 or 1/125.</summary>
    public double? Seconds(string column)
    {
        if (Text(column) is not { } text)
        {
            return null;
        }

        string[] parts = text.Split('/');
        double? seconds = parts.Length switch
        {
            1 => Parse(parts[0]),
            2 => Parse(parts[0]) / Parse(parts[1]),
            _ => null,
        };
        return seconds is > 0 and < 1e6 ? seconds : throw BadValue(column, text, "seconds above zero, as 0.008 or 1/125");
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

    private static double? Parse(string text)
    {
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        return double.TryParse(text, Style, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? number : null;
    }

    private FrameTableException BadValue(string column, string text, string expected) =>
        Fault($"The column {column} holds \"{text}\", which is not {expected}.", "Correct the cell, with a point for decimals, or leave it blank.");
}
