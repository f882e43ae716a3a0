using System.Globalization;
using CsvHelper;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Reports.Tables;

/// <summary>A table as CSV: full digits, a figure in a column a part.</summary>
/// <remarks>RFC 4180 with line feeds; numbers in the invariant culture, enough digits to read the same number back.</remarks>
internal static class CsvTable
{
    private static readonly CsvWriterOptions Format = new()
    {
        FormatProvider = CultureInfo.InvariantCulture,
        NewLine = "\n",
    };

    private static readonly (string Suffix, Func<Figure, double?> Part)[] FigureParts =
    [
        (string.Empty, f => f.Value),
        (".standardUncertainty", f => f.StandardUncertainty),
        (".lower95", f => f.Lower95),
        (".upper95", f => f.Upper95),
        (".atLeast", f => f.AtLeast),
        (".atMost", f => f.AtMost),
    ];

    /// <summary>The table's bytes.</summary>
    /// <param name="table">The table.</param>
    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] Of(ReportTable table)
    {
        using var stream = new MemoryStream();
        using (var csv = CsvWriter.Create(stream, Format, leaveOpen: true))
        {
            foreach (TableColumn column in table.Columns)
            {
                WriteHeader(csv, column);
            }

            csv.EndRecord();
            foreach (IReadOnlyList<TableCell> row in table.Rows)
            {
                foreach ((TableColumn column, TableCell cell) in table.Columns.Zip(row))
                {
                    WriteCell(csv, column, cell);
                }

                csv.EndRecord();
            }
        }

        return stream.ToArray();
    }

    private static void WriteHeader(CsvWriter csv, TableColumn column)
    {
        foreach ((string suffix, _) in column.Kind == ColumnKind.Figure ? FigureParts : FigureParts.Take(1))
        {
            csv.WriteField(ForeignText.InSpreadsheet(column.Key + suffix));
        }
    }

    private static void WriteCell(CsvWriter csv, TableColumn column, TableCell cell)
    {
        if (column.Kind != ColumnKind.Figure)
        {
            csv.WriteField(Plain(cell.Value));
            return;
        }

        foreach ((_, Func<Figure, double?> part) in FigureParts)
        {
            csv.WriteField(cell.Value is Figure figure ? Plain(part(figure)) : string.Empty);
        }
    }

    private static string Plain(object? value) => value switch
    {
        null => string.Empty,
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        string text => ForeignText.InSpreadsheet(text),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? string.Empty,
    };
}
