using System.Globalization;
using DuckDB.NET.Data;

namespace SensorLab.Shelf.Store;

/// <summary>The DuckDB file of a shelf, open: one run at a time, which holds the shelf's lock.</summary>
internal sealed class IndexFile : IDisposable
{
    // The working set of a batch and of any question is far below; sorting for the export goes to the disk beyond.
    private const string MemoryLimit = "1GB";

    private readonly DuckDBConnection _connection;

    private IndexFile(DuckDBConnection connection) => _connection = connection;

    /// <summary>Opens a file, or makes it.</summary>
    /// <param name="path">The file.</param>
    /// <param name="writesFiles">Whether other files will be written by it: nothing else may be touched otherwise.</param>
    /// <exception cref="ShelfException">It is damaged, or of a version that is not known.</exception>
    /// <exception cref="IOException">It cannot be opened.</exception>
    public static IndexFile Open(string path, bool writesFiles = false)
    {
        DuckDbLibrary.Require();
        bool isNew = !File.Exists(path);
        try
        {
            var words = new DuckDBConnectionStringBuilder { DataSource = path };
            words["memory_limit"] = MemoryLimit;
            words["autoinstall_known_extensions"] = "false";
            words["autoload_known_extensions"] = "false";
            words["enable_external_access"] = writesFiles ? "true" : "false";
            var file = new IndexFile(new DuckDBConnection(words.ConnectionString));
            try
            {
                file._connection.Open();
                file.RequireTables(isNew);
                return file;
            }
            catch
            {
                file.Dispose();
                throw;
            }
        }
        catch (DuckDBException e)
        {
            throw Damaged(path, e);
        }
    }

    /// <summary>Begins a transaction.</summary>
    public DuckDBTransaction Begin() => _connection.BeginTransaction();

    /// <summary>Appends to a table.</summary>
    /// <param name="table">The table.</param>
    public DuckDBAppender Appender(string table) => _connection.CreateAppender(table);

    /// <summary>Does what a statement says.</summary>
    /// <param name="words">The statement: never text from outside.</param>
    /// <param name="values">What stands for its question marks.</param>
    public void Do(string words, params IEnumerable<object?> values)
    {
        using DuckDBCommand command = Command(words, values);
        command.ExecuteNonQuery();
    }

    /// <summary>Asks, and reads all rows.</summary>
    /// <param name="words">The question: never text from outside.</param>
    /// <param name="read">Reads the row that the reader stands at.</param>
    /// <param name="values">What stands for its question marks.</param>
    public List<T> Ask<T>(string words, Func<DuckDBDataReader, T> read, params IEnumerable<object?> values)
    {
        using DuckDBCommand command = Command(words, values);
        using DuckDBDataReader reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(read(reader));
        }

        return rows;
    }

    /// <inheritdoc/>
    public void Dispose() => _connection.Dispose();

    /// <summary>What to say of an index that DuckDB gives up on.</summary>
    public static Exception Damaged(string path, DuckDBException e) => IsOfTheDisk(e)
        ? new IOException($"{path} cannot be read or written: {FirstLine(e)} Profiles that were taken in stay, as files; the index follows when there is room.", e)
        : new ShelfException($"The shelf's index {path} cannot be used: {FirstLine(e)}", "The profiles are plain files and whole: sensorlab shelf rebuild makes the index anew from them.", e);

    private static bool IsOfTheDisk(DuckDBException e) =>
        e.Message.Contains("No space left", StringComparison.OrdinalIgnoreCase)
        || e.Message.Contains("Could not set lock", StringComparison.OrdinalIgnoreCase)
        || e.Message.Contains("Permission denied", StringComparison.OrdinalIgnoreCase)
        || e.Message.Contains("Read-only file system", StringComparison.OrdinalIgnoreCase)
        || e.Message.Contains("File too large", StringComparison.OrdinalIgnoreCase);

    private static string FirstLine(DuckDBException e) => e.Message.Split('\n')[0].Trim().TrimEnd('.') + ".";

    private void RequireTables(bool isNew)
    {
        bool hasTables = !isNew && Ask("select count(*) from information_schema.tables where table_name = 'shelf'", r => r.GetInt64(0))[0] > 0;
        if (!hasTables)
        {
            using DuckDBTransaction making = Begin();
            Do(IndexSchema.Definition);
            Do("insert into shelf values (?)", IndexSchema.Version);
            making.Commit();
            return;
        }

        int version = Ask("select version from shelf", r => r.GetInt32(0)).FirstOrDefault();
        if (version != IndexSchema.Version)
        {
            throw new ShelfException(
                string.Create(CultureInfo.InvariantCulture, $"The shelf's index is of version {version}, and this program keeps version {IndexSchema.Version}."),
                version > IndexSchema.Version ? "Update SensorLab." : "sensorlab shelf rebuild makes it anew from the profiles.");
        }
    }

    private DuckDBCommand Command(string words, IEnumerable<object?> values)
    {
        DuckDBCommand command = _connection.CreateCommand();
#pragma warning disable CA2100 // The words are constants of this room; text from outside is a value.
        command.CommandText = words;
#pragma warning restore CA2100
        foreach (object? value in values)
        {
            command.Parameters.Add(new DuckDBParameter(value ?? DBNull.Value));
        }

        return command;
    }
}
