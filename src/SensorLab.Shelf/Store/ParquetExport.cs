using System.Text;

namespace SensorLab.Shelf.Store;

/// <summary>The tables as Parquet, by DuckDB's own writer: <c>TABLE/maker=…/model=…/part-….parquet</c>.</summary>
internal static class ParquetExport
{
    /// <summary>What an export is told by, which may be replaced: it says what the tables hold.</summary>
    public const string MarkName = "SHELF-EXPORT.txt";

    private static readonly string Mark = $"""
        Tables of a SensorLab shelf, version {IndexSchema.Version}: body, profile, iso_figure, level, finding.
        Parquet, compressed with Zstandard, partitioned as TABLE/maker=.../model=.../part-N.parquet. In the folders' names,
        maker and model are cut to letters, digits and - . _ ("unknown" where frames do not say): engines differ in how they
        read other signs there. body has them in full, as maker_name and model_name. Times are UTC without a zone. Every table
        but body has the column profile, which joins them; profile.body joins profile with body. A figure that is a bound has
        no value: bound says atLeast or atMost, and lower95 or upper95 which.

        """;

    // A folder of letters that differ in case alone would be one folder on some disks: all take the first one's.
    private const string Parts = """
        create or replace temp table part as
        with named as (
          select body,
            coalesce(nullif(left(regexp_replace(trim(maker), '[^A-Za-z0-9._-]', '_', 'g'), 60), ''), 'unknown') as maker,
            coalesce(nullif(left(regexp_replace(trim(model), '[^A-Za-z0-9._-]', '_', 'g'), 60), ''), 'unknown') as model
          from body
        )
        select body, min(maker) over (partition by lower(maker)) as maker, min(model) over (partition by lower(maker), lower(model)) as model from named
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
        file.Do(Parts);
        foreach (string table in IndexSchema.Tables)
        {
            cancellation.ThrowIfCancellationRequested();
            string owner = table is "body" or "profile" ? "join part on part.body = t.body" : "join profile p on p.profile = t.profile join part on part.body = p.body";
            string columns = table == "body" ? "t.body, t.maker as maker_name, t.model as model_name, t.serial_number" : "t.*";
            string target = Path.Combine(folder, table).Replace("'", "''", StringComparison.Ordinal);
            file.Do($"""
                copy (
                  select {columns}, part.maker, part.model from {table} t {owner}
                  order by part.maker, part.model, {Order[table]}
                ) to '{target}' (format parquet, compression zstd, partition_by (maker, model), filename_pattern 'part-{"{i}"}')
                """);
        }

        using FileStream mark = File.Create(Path.Combine(folder, MarkName));
        mark.Write(Encoding.UTF8.GetBytes(Mark));
    }
}
