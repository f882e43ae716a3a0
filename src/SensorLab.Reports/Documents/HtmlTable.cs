using SensorLab.Reports.Pages;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>A table in a page.</summary>
internal static class HtmlTable
{
    // On a phone a row becomes a card; longer tables keep their columns and close up.
    private const int MostCards = 40;

    /// <summary>Writes the table; the first cell of each row is its header, and figures explain themselves in theirs.</summary>
    /// <param name="html">Where to.</param>
    /// <param name="table">The table.</param>
    /// <param name="glossary">The anchors that the page's glossary has; a figure that is among them is a link to its words.</param>
    public static void Write(HtmlWriter html, ReportTable table, IReadOnlySet<string>? glossary = null)
    {
        bool isCards = table.Rows.Count <= MostCards;
        using IDisposable frame = html.In("div", ("class", "scroll"), ("tabindex", "0"), ("role", "group"), ("aria-label", table.Caption));
        using IDisposable element = html.In("table", ("class", isCards ? "cards" : "dense"), ("data-name", table.Name));
        html.Leaf("caption", table.Caption);
        using (html.In("thead"))
        {
            using IDisposable row = html.In("tr");
            foreach (TableColumn column in table.Columns)
            {
                WriteHeader(html, column, glossary);
            }
        }

        using IDisposable body = html.In("tbody");
        foreach (IReadOnlyList<TableCell> row in table.Rows)
        {
            html.Break();
            using IDisposable line = html.In("tr");
            foreach ((int index, TableCell cell) in row.Index())
            {
                WriteCell(html, table.Columns[index], cell, isFirst: index == 0, isCards, glossary);
            }
        }
    }

    private static void WriteHeader(HtmlWriter html, TableColumn column, IReadOnlySet<string>? glossary)
    {
        bool isWords = column.Kind is ColumnKind.Words or ColumnKind.Word;
        string? kind = column.Definition is not null ? (isWords ? "words wrap" : "wrap") : isWords ? "words" : null;
        using IDisposable header = html.In("th", ("scope", "col"), ("class", kind));
        WriteTitle(html, column.Title, column.Definition, glossary);
    }

    private static void WriteCell(HtmlWriter html, TableColumn column, TableCell cell, bool isFirst, bool isCard, IReadOnlySet<string>? glossary)
    {
        if (isFirst)
        {
            using IDisposable header = html.In("th", ("scope", "row"), ("data-label", isCard ? LabelOf(column) : null), ("data-unit", isCard ? UnitOf(column, cell) : null), ("class", cell.Value is FigureDefinition || column.Kind == ColumnKind.Words ? "wrap" : null));
            WriteTitle(html, cell.Printed, cell.Value as FigureDefinition, glossary);
            return;
        }

        html.Leaf("td", cell.Printed, ("data-label", isCard ? LabelOf(column) : null), ("data-unit", isCard ? UnitOf(column, cell) : null), ("class", column.Kind is ColumnKind.Words ? "words" : column.Kind is ColumnKind.Word ? "word" : null));
    }

    private static void WriteTitle(HtmlWriter html, string title, FigureDefinition? definition, IReadOnlySet<string>? glossary)
    {
        if (definition is null)
        {
            html.Text(title);
        }
        else if (glossary?.Contains(definition.Anchor) == true)
        {
            html.Leaf("a", title, ("href", "#" + definition.Anchor));
        }
        else
        {
            html.Text(title);
            html.Leaf("small", definition.Full);
        }
    }

    // On a phone every figure stands under its own name: the unit goes with the figure.
    private static string LabelOf(TableColumn column) => column.Definition is { Unit.Length: > 0 } definition && column.Title == definition.Title ? definition.Name : column.Title;

    private static string? UnitOf(TableColumn column, TableCell cell) => column.Definition is { Unit.Length: > 0 } definition && column.Title == definition.Title && cell.Printed.Any(char.IsAsciiDigit)
        ? definition.Unit.Split(' ')[0]
        : null;
}
