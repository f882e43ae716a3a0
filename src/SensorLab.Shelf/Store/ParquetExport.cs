using System.Text;

namespace SensorLab.Shelf.Store;

/// <summary>The tables as Parquet, by DuckDB's own writer: <c>TABLE/maker=…/model=…/part-….parquet</c>.</summary>
internal static class ParquetExport
{
    /// <summary>What an export is told by, which may be replaced: it says what the tables hold.</summary>
    public const string MarkName = "SHELF-EXPORT.txt";

    private const string Mark = """
        Tables of a SensorLab shelf, version 1: body, profile, iso_figure, level, finding.
        Parquet, compressed with Zstandard, partitioned as TABLE/maker=.../model=.../part-N.parquet. Maker and model are in
        the folders' names alone ("unknown" where frames do not say). Times are UTC without a zone. Every table but body has
        the column profile, which joins them; profile.body joins profile with body. A figure that is a bound has no value:
        bound says atLeast or atMost, and lower95 or upper95 which.

        """;

    // Rows in one order and from one thread: the same shelf gives the same bytes.
    private static readonly Dictionary<string, string> Order = new(StringComparer.Ordinal)
    {
        ["body"] = "t.body",
        ["profile"] = "t.profile",
        ["iso_figure"] = "t.profile, t.iso, t.channel nulls first, t.figure",
        ["level"] = "t.profile, t.iso, t.level, t.channel",
        ["finding"] = "t.profile, t.number",
    };

    /// <summary>Requires that a folder may be replaced: it is missing, empty, or an export.</summary>
    /// <param name="folder">The folder.</param>
    /// <exception cref="IOException">It holds something else.</exception>
    public static void RequireFree(string folder)
    {
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any() && !File.Exists(Path.Combine(folder, MarkName)))
        {
            throw new IOException($"{folder} is not empty, and no earlier export: nothing in it is replaced. Name a folder that is not there yet.");
        }
    }

    /// <summary>Writes all tables into an empty folder.</summary>
    /// <param name="file">The index.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="cancellation">Stops between tables.</param>
    public static void Write(IndexFile file, string folder, CancellationToken cancellation)
    {
        file.Do("set threads = 1");
        foreach (string table in IndexSchema.Tables)
        {
            cancellation.ThrowIfCancellationRequested();
            string owner = table is "body" or "profile" ? "join body b on b.body = t.body" : "join profile p on p.profile = t.profile join body b on b.body = p.body";
            string columns = table == "body" ? "t.body, t.serial_number" : "t.*";
            string target = Path.Combine(folder, table).Replace("'", "''", StringComparison.Ordinal);
            file.Do($"""
                copy (
                  select {columns}, {PartOf("b.maker")} as maker, {PartOf("b.model")} as model
                  from {table} t {owner}
                  order by maker, model, {Order[table]}
                ) to '{target}' (format parquet, compression zstd, partition_by (maker, model), filename_pattern 'part-{"{i}"}')
                """);
        }

        using FileStream mark = File.Create(Path.Combine(folder, MarkName));
        mark.Write(Encoding.UTF8.GetBytes(Mark));
    }

    // Written as %XX a name may become longer than a folder's can: the end of such a one is a hash.
    private static string PartOf(string column) => $"""
        case when coalesce(trim({column}), '') = '' then 'unknown'
          when strlen(url_encode({column})) <= 200 then {column}
          else left({column}, 16) || '-' || left(md5({column}), 8) end
        """;
}
