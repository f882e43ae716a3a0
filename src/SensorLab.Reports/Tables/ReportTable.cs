namespace SensorLab.Reports.Tables;

/// <summary>A table of a report: a page's, a document's and a CSV file's alike.</summary>
/// <param name="Name">Its name as a file: lower-case words with hyphens.</param>
/// <param name="Caption">What it holds.</param>
/// <param name="Columns">Its columns; the first names the row.</param>
/// <param name="Rows">Its rows, each with a cell a column.</param>
internal sealed record ReportTable(
    string Name, string Caption, IReadOnlyList<TableColumn> Columns, IReadOnlyList<IReadOnlyList<TableCell>> Rows)
{
    /// <summary>The table without some of its columns.</summary>
    /// <param name="keys">Keys of the columns to leave out.</param>
    public ReportTable Without(params IReadOnlyCollection<string> keys)
    {
        int[] kept = [.. Columns.Index().Where(c => !keys.Contains(c.Item.Key)).Select(c => c.Index)];
        return this with
        {
            Columns = [.. kept.Select(i => Columns[i])],
            Rows = [.. Rows.Select(row => (IReadOnlyList<TableCell>)[.. kept.Select(i => row[i])])],
        };
    }

    /// <summary>The table's first rows.</summary>
    /// <param name="most">How many may stay.</param>
    public ReportTable Top(int most) => Rows.Count <= most ? this : this with { Rows = [.. Rows.Take(most)] };

    /// <summary>The table without columns in which no cell has a value.</summary>
    public ReportTable WithoutEmpty() => Without([.. Columns.Index().Skip(1).Where(c => Rows.All(row => row[c.Index].Value is null)).Select(c => c.Item.Key)]);
}
