using System.Diagnostics.CodeAnalysis;
using DuckDB.NET.Data;

namespace SensorLab.TestData;

/// <summary>What DuckDB answers: our files and the shelf's index read as anybody reads them.</summary>
internal static class DuckDbRows
{
    /// <summary>Asks.</summary>
    /// <param name="words">The question.</param>
    /// <param name="source">The database's file; without one nothing but what the question names.</param>
    /// <param name="before">Statements to begin with.</param>
    /// <returns>The rows; a null is null.</returns>
    [SuppressMessage("Security", "CA2100", Justification = "The words are the tests' own.")]
    public static List<object?[]> Of(string words, string source = ":memory:", params IEnumerable<string> before)
    {
        using var connection = new DuckDBConnection($"DataSource={source}");
        connection.Open();
        using DuckDBCommand command = connection.CreateCommand();
        foreach (string statement in before)
        {
            command.CommandText = statement;
            command.ExecuteNonQuery();
        }

        command.CommandText = words;
        using DuckDBDataReader reader = command.ExecuteReader();
        List<object?[]> rows = [];
        while (reader.Read())
        {
            rows.Add([.. Enumerable.Range(0, reader.FieldCount).Select(i => reader.IsDBNull(i) ? null : reader.GetValue(i))]);
        }

        return rows;
    }
}
