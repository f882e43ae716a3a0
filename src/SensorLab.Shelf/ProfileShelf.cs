using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Shelf.Documents;
using SensorLab.Shelf.History;
using SensorLab.Shelf.Models;
using SensorLab.Shelf.Store;

namespace SensorLab.Shelf;

/// <summary>A folder that keeps profiles, each once, as they are, with an index of them that any DuckDB opens.</summary>
/// <remarks>
/// The profiles' files are the truth. They are written first and whole; the index follows, and every question brings it up to
/// what lies there, so that a run that was killed, or a file that was laid in or taken out by hand, costs nothing. Runs of any
/// process wait for each other, at the index alone and for a batch at a time.
/// </remarks>
/// <param name="folder">The folder; it need not be there until something is added.</param>
public sealed class ProfileShelf(string folder)
{
    // Another run waits a few seconds for its turn.
    private const int ProfilesATurn = 128;

    // While a transaction is put on the disk, the reading goes on.
    private const int BatchesAhead = 3;

    // More are asked for by leaving the others out afterwards.
    private const int MostNamed = 100;

    private readonly DocumentFolder _documents = new(folder);

    /// <summary>The folder.</summary>
    public string Folder => folder;

    /// <summary>Where the index lies.</summary>
    public string IndexPath => Path.Combine(folder, ShelfSession.IndexName);

    /// <summary>Where a profile's file lies.</summary>
    /// <param name="key">The profile's key.</param>
    public string PathOf(string key) => _documents.PathOf(key);

    /// <summary>Takes profiles in; one that is there stays as it is.</summary>
    /// <param name="candidates">What to take in.</param>
    /// <param name="progress">Told how many are done, after each batch.</param>
    /// <param name="cancellation">Stops between batches; what was taken in stays.</param>
    /// <returns>What came of each, in their order.</returns>
    /// <exception cref="IOException">A profile cannot be written, or the index cannot follow, as on a full disk; what was taken in before is there, as files.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="ShelfException">The index is damaged, of a later version, or busy for too long; the profiles are there, as files.</exception>
    public Task<IReadOnlyList<TakenIn>> AddAsync(IReadOnlyList<ShelfCandidate> candidates, IProgress<int> progress, CancellationToken cancellation = default) =>
        Task.Run(() => Add(candidates, progress, cancellation), cancellation);

    /// <summary>What is on the shelf, the index brought up to it.</summary>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="IOException">The folder cannot be read, or the index not written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be read or written to.</exception>
    /// <exception cref="ShelfException">The index is damaged, of another version, or busy for too long.</exception>
    public ShelfContents Contents(CancellationToken cancellation = default)
    {
        if (!Directory.Exists(folder))
        {
            return new ShelfContents([], []);
        }

        using var session = ShelfSession.Open(folder, cancellation);
        IReadOnlyList<TakenIn> damaged = session.CatchUp(_documents, cancellation);
        return new ShelfContents(session.Ask(index => index.All()), damaged);
    }

    /// <summary>Figures of profiles, as the index holds them: a budget without its parts.</summary>
    /// <param name="choice">Which figures.</param>
    /// <param name="profiles">The profiles.</param>
    /// <param name="cancellation">Stops the waiting for other runs.</param>
    /// <returns>By the profile's key; profiles that hold no such figure are left out.</returns>
    /// <exception cref="IOException">The index cannot be read.</exception>
    /// <exception cref="ShelfException">The index is damaged, of another version, or busy for too long.</exception>
    public ILookup<string, (FigureAddress Address, Figure Figure)> Figures(FigureChoice choice, IReadOnlyList<ShelvedProfile> profiles, CancellationToken cancellation = default)
    {
        HashSet<string> wanted = [.. profiles.Select(p => p.Key)];
        using var session = ShelfSession.Open(folder, cancellation);
        return session.Ask(index => index.Figures(choice, wanted.Count <= MostNamed ? [.. wanted] : null))
            .Where(f => wanted.Contains(f.Profile))
            .ToLookup(f => f.Profile, f => (f.Address, f.Figure));
    }

    /// <summary>Compares the bodies of a model, each by its newest profile.</summary>
    /// <param name="bodies">The bodies: one or more, of one model.</param>
    /// <param name="contents">The shelf.</param>
    /// <param name="choice">Which figures.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="IOException">The index cannot be read.</exception>
    /// <exception cref="ShelfException">The index is damaged, of another version, or busy for too long.</exception>
    public ModelSpread Compare(IReadOnlyList<ShelfBody> bodies, ShelfContents contents, FigureChoice choice, CancellationToken cancellation = default)
    {
        ShelvedProfile[] newest = [.. bodies.Select(contents.NewestOf)];
        string mode = newest.GroupBy(p => p.Mode).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).First().Key;
        Dictionary<string, ShelvedProfile> compared = newest.Where(p => p.Mode == mode).ToDictionary(p => p.Key);
        using var session = ShelfSession.Open(folder, cancellation);
        var figures = session.Ask(index => index.Values(choice, [.. compared.Keys])).GroupBy(f => f.Address).ToArray();
        int family = figures.Sum(g => g.Count());
        FigureSpread[] spreads =
        [
            .. figures.Where(g => g.Any(f => f.Value is not null)).Select(g => FigureSpread.Of(
                g.Key,
                [.. g.Where(f => f.Value is not null).Select(f => new BodyFigure(compared[f.Profile], f.Value!.Value, f.StandardUncertainty))],
                g.Count(f => f.Value is null),
                family)),
        ];
        return new ModelSpread(bodies[0].ModelName, mode, compared.Count, newest.Length - compared.Count, spreads);
    }

    /// <summary>Reads a profile.</summary>
    /// <param name="key">Its key.</param>
    /// <exception cref="ProfileFormatException">It has been changed since it was kept.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    public SensorProfile Read(string key) => _documents.Read(key).Profile;

    /// <summary>Reads a profile's figures, a fraction of the whole's time.</summary>
    /// <param name="key">Its key.</param>
    /// <returns>The profile without frames, SNR curves and levels but the metered ones.</returns>
    /// <exception cref="ProfileFormatException">It has been changed since it was kept.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    public SensorProfile ReadFigures(string key) => _documents.ReadFigures(key);

    /// <summary>Makes the index anew from the profiles' files; the old one, whatever its state, is replaced when the new one is whole.</summary>
    /// <param name="progress">Told how many profiles of how many are done.</param>
    /// <param name="cancellation">Stops the work; the old index stays.</param>
    /// <returns>Files that were left out, and why.</returns>
    /// <exception cref="IOException">The folder cannot be read, or the index not written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be read or written to.</exception>
    /// <exception cref="ShelfException">Another run keeps the index busy for too long.</exception>
    public IReadOnlyList<TakenIn> Rebuild(IProgress<(int Done, int Total)> progress, CancellationToken cancellation = default) =>
        Directory.Exists(folder) ? ShelfSession.Rebuild(folder, _documents, progress, cancellation) : [];

    /// <summary>Writes the tables as Parquet, partitioned by maker and model; the same shelf gives the same bytes.</summary>
    /// <param name="target">The folder: missing, empty, or an earlier export, which is replaced when the new one is whole.</param>
    /// <param name="cancellation">Stops between tables; the earlier export stays.</param>
    /// <returns>Files among the profiles that were left out, and why.</returns>
    /// <exception cref="IOException">The folder holds something else, or cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="ShelfException">The index is damaged, of another version, or busy for too long.</exception>
    public IReadOnlyList<TakenIn> Export(string target, CancellationToken cancellation = default)
    {
        Directory.CreateDirectory(folder);
        using var session = ShelfSession.Open(folder, cancellation, writesFiles: true);
        IReadOnlyList<TakenIn> damaged = session.CatchUp(_documents, cancellation);
        new WholeOutput().WithWholeFolder(target, into => session.Export(into, cancellation), () => ParquetExport.RequireFree(target)).PutInPlace(cancellation);
        return damaged;
    }

    private IReadOnlyList<TakenIn> Add(IReadOnlyList<ShelfCandidate> candidates, IProgress<int> progress, CancellationToken cancellation)
    {
        var results = new List<TakenIn>(candidates.Count);
        ShelfSession? session = null;
        int indexed = 0;
        try
        {
            foreach ((IReadOnlyList<TakenIn> taken, IReadOnlyList<ShelfDocument> fresh) in CandidateBatch.All(candidates, cancellation).Select(batch => Keep(batch, cancellation)).Ahead(BatchesAhead, cancellation))
            {
                results.AddRange(taken);
                if (fresh.Count > 0)
                {
                    session ??= ShelfSession.Open(folder, cancellation);
                    session.Append(fresh);
                    indexed += fresh.Count;
                }

                if (indexed >= ProfilesATurn)
                {
                    session!.Commit();
                    session.Dispose();
                    (session, indexed) = (null, 0);
                }

                progress.Report(results.Count);
            }

            session?.Commit();
            return results;
        }
        finally
        {
            session?.Dispose();
        }
    }

    /// <summary>Puts the files of those that are new in place, and notes what came of each.</summary>
    private (IReadOnlyList<TakenIn> Taken, IReadOnlyList<ShelfDocument> Fresh) Keep(IReadOnlyList<ReadCandidate> batch, CancellationToken cancellation)
    {
        var results = new List<TakenIn>();
        var fresh = new Dictionary<string, ShelfDocument>(StringComparer.Ordinal);
        foreach ((string name, ShelfDocument? document, Exception? fault) in batch)
        {
            bool isNew = document is not null && !_documents.Holds(document.Key) && fresh.TryAdd(document.Key, document);
            results.Add(new TakenIn(name, document?.Key, document is null ? null : ShelfBody.Of(document.Profile.Body, document.Key), isNew, fault));
        }

        if (fresh.Count > 0)
        {
            _documents.Keep([.. fresh.Values], cancellation);
        }

        return (results, [.. fresh.Values]);
    }
}
