using DuckDB.NET.Data;

namespace SensorLab.Shelf.Store;

/// <summary>Appends text from documents, which can hold anything.</summary>
internal static class AppenderText
{
    // DuckDB's appender takes a text for ended there, and would drop the rest in silence.
    private const char Null = '\0';
    private const char Replacement = '\uFFFD';

    /// <summary>Appends a text whole; U+0000 becomes U+FFFD.</summary>
    /// <param name="row">The row.</param>
    /// <param name="text">The text; null for none.</param>
    public static IDuckDBAppenderRow AppendText(this IDuckDBAppenderRow row, string? text) => row.AppendValue(text?.Replace(Null, Replacement));
}
