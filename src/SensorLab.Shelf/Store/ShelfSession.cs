using DuckDB.NET.Data;
using SensorLab.Files;
using SensorLab.Shelf.Documents;

namespace SensorLab.Shelf.Store;

/// <summary>A shelf's index, open under its lock.</summary>
internal sealed class ShelfSession : IDisposable
{
    /// <summary>The index's file in the shelf's folder.</summary>
    public const string IndexName = "shelf.duckdb";

    private const string Indexing = "indexing";

    // A batch takes a second or two; a whole rebuild of thousands of profiles minutes.
    private static readonly TimeSpan LongestWait = TimeSpan.FromMinutes(10);

    private readonly FolderLock _turn;
    private readonly IndexFile _file;
    private readonly string _path;
    private IndexWriter? _writer;

    private ShelfSession(string folder, bool writesFiles, CancellationToken cancellation)
    {
        _path = Path.Combine(folder, IndexName);
        _turn = new FolderLock(folder, Indexing, LongestWait, cancellation);
        try
        {
            _file = IndexFile.Open(_path, writesFiles);
        }
        catch
        {
            _turn.Dispose();
            throw;
        }
    }

    /// <summary>Asks.</summary>
    /// <param name="question">The question.</param>
    public T Ask<T>(Func<IndexReader, T> question) => Guarded(() => question(Reader));

    /// <summary>Opens the index, or makes it; waits for other runs.</summary>
    /// <param name="folder">The shelf's folder, which is there.</param>
    /// <param name="cancellation">Ends the waiting.</param>
    /// <param name="writesFiles">Whether the export is written by it.</param>
    /// <exception cref="ShelfException">It is damaged, or of a version that is not known.</exception>
    /// <exception cref="IOException">Another run holds it for too long, or it cannot be opened.</exception>
    public static ShelfSession Open(string folder, CancellationToken cancellation, bool writesFiles = false) => new(folder, writesFiles, cancellation);

    /// <summary>Makes the index anew.</summary>
    /// <returns>Files that were left out, and why.</returns>
    public static IReadOnlyList<TakenIn> Rebuild(string folder, DocumentFolder documents, IProgress<(int Done, int Total)> progress, CancellationToken cancellation)
    {
        using var turn = new FolderLock(folder, Indexing, LongestWait, cancellation);
        IReadOnlyList<TakenIn> damaged = [];
        string path = Path.Combine(folder, IndexName);
        new WholeOutput().WithMadeFile(path, made =>
        {
            damaged = Fill(made, documents, progress, cancellation);

            // What the old index had not yet put into its file must not reach the new one; the old one catches up without it, too.
            File.Delete(path + ".wal");
        }).PutInPlace(cancellation);
        return damaged;
    }

    /// <summary>Appends profiles that the index does not hold; they are in it after <see cref="Commit"/>, or earlier.</summary>
    public void Append(IEnumerable<ShelfDocument> documents) => Guarded(() =>
    {
        _writer ??= new IndexWriter(_file);
        _writer.Append(documents);
        return true;
    });

    /// <summary>Ends the appending.</summary>
    public void Commit() => Guarded(() =>
    {
        _writer?.Commit();
        return true;
    });

    /// <summary>Brings the index up to the profiles' files: some may have come or gone without it.</summary>
    /// <returns>Files that are no profiles, or not the ones that were kept, and why.</returns>
    public IReadOnlyList<TakenIn> CatchUp(DocumentFolder documents, CancellationToken cancellation) =>
        Guarded(() => CatchUp(_file, documents, new Progress<(int Done, int Total)>(), cancellation));

    /// <summary>Writes the tables as Parquet.</summary>
    public void Export(string folder, CancellationToken cancellation) => Guarded(() =>
    {
        ParquetExport.Write(_file, folder, cancellation);
        return true;
    });

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            _writer?.Dispose();
            _file.Dispose();
        }
        finally
        {
            _turn.Dispose();
        }
    }

    private IndexReader Reader => new(_file);

    // The index's damage is told from the disk's.
    private T Guarded<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (DuckDBException e)
        {
            throw IndexFile.Damaged(_path, e);
        }
    }

    private static IReadOnlyList<TakenIn> Fill(string path, DocumentFolder documents, IProgress<(int Done, int Total)> progress, CancellationToken cancellation)
    {
        using var file = IndexFile.Open(path);
        try
        {
            return CatchUp(file, documents, progress, cancellation);
        }
        catch (DuckDBException e)
        {
            throw IndexFile.Damaged(path, e);
        }
    }

    private static IReadOnlyList<TakenIn> CatchUp(IndexFile file, DocumentFolder documents, IProgress<(int Done, int Total)> progress, CancellationToken cancellation)
    {
        HashSet<string> indexed = new IndexReader(file).Keys();
        HashSet<string> there = [.. documents.Keys()];
        using var writer = new IndexWriter(file);
        string[] gone = [.. indexed.Where(key => !there.Contains(key)).Order(StringComparer.Ordinal)];
        if (gone.Length > 0)
        {
            writer.Remove(gone);
        }

        ShelfCandidate[] missing = [.. there.Where(key => !indexed.Contains(key)).Order(StringComparer.Ordinal).Select(key => new ShelfCandidate(documents.PathOf(key), _ => documents.Read(key)))];
        var damaged = new List<TakenIn>();
        int done = 0;
        foreach (IReadOnlyList<ReadCandidate> batch in CandidateBatch.All(missing, cancellation).Ahead(1, cancellation))
        {
            damaged.AddRange(batch.Where(c => c.Fault is not null).Select(c => new TakenIn(c.Name, null, null, IsNew: false, c.Fault)));
            writer.Append(batch.Select(c => c.Document).OfType<ShelfDocument>());
            done += batch.Count;
            progress.Report((done, missing.Length));
        }

        writer.Commit();
        return damaged;
    }
}
