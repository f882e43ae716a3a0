using SensorLab.Reports.Pages;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>A table in a page.</summary>
internal static class HtmlTable
{
    /// <summary>Writes the table; the first cell of each row is its header, and figures explain themselves in theirs.</summary>
    /// <param name="html">Where to.</param>
    /// <param name="table">The table.</param>
    public static void Write(HtmlWriter html, ReportTable table)
    {
        using IDisposable frame = html.In("div", ("class", "scroll"), ("tabindex", "0"), ("role", "group"), ("aria-label", table.Caption));
        using IDisposable element = html.In("table", ("data-name", table.Name));
        html.Leaf("caption", table.Caption);
        using (html.In("thead"))
        {
            using IDisposable row = html.In("tr");
            foreach (TableColumn column in table.Columns)
            {
                WriteHeader(html, column);
            }
        }

        using IDisposable body = html.In("tbody");
        foreach (IReadOnlyList<TableCell> row in table.Rows)
        {
            html.Break();
            using IDisposable line = html.In("tr");
            foreach ((int index, TableCell cell) in row.Index())
            {
                WriteCell(html, table.Columns[index], cell, isFirst: index == 0);
            }
        }
    }

    private static void WriteHeader(HtmlWriter html, TableColumn column)
    {
        bool isWords = column.Kind is ColumnKind.Words or ColumnKind.Word;
        string? kind = column.Definition is not null ? (isWords ? "words wrap" : "wrap") : isWords ? "words" : null;
        using IDisposable header = html.In("th", ("scope", "col"), ("class", kind));
        html.Text(column.Title);
        if (column.Definition is { } definition)
        {
            html.Leaf("small", definition.Full);
        }
    }

    private static void WriteCell(HtmlWriter html, TableColumn column, TableCell cell, bool isFirst)
    {
        if (isFirst)
        {
            using IDisposable header = html.In("th", ("scope", "row"), ("class", cell.Value is FigureDefinition || column.Kind == ColumnKind.Words ? "wrap" : null));
            html.Text(cell.Printed);
            if (cell.Value is FigureDefinition definition)
            {
                html.Leaf("small", definition.Full);
            }

            return;
        }

        html.Leaf("td", cell.Printed, ("class", column.Kind is ColumnKind.Words ? "words" : column.Kind is ColumnKind.Word ? "word" : null));
    }
}
