namespace SensorLab.Reports.Tables;

/// <summary>A column of a table.</summary>
/// <param name="Key">Its name in a CSV file: camelCase, the unit last.</param>
/// <param name="Title">Its title in a page.</param>
/// <param name="Kind">What its cells hold.</param>
internal sealed record TableColumn(string Key, string Title, ColumnKind Kind)
{
    /// <summary>The figure that it holds, with its definition; null where it needs none.</summary>
    public FigureDefinition? Definition { get; init; }

    /// <summary>A column of figures.</summary>
    /// <param name="definition">The figure.</param>
    public static TableColumn Of(FigureDefinition definition) =>
        new(definition.Key, definition.Title, ColumnKind.Figure) { Definition = definition };
}
