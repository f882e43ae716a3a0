using SensorLab.Profiles;

namespace SensorLab.Shelf.Documents;

/// <summary>Reads candidates side by side, a batch at a time: as many as memory holds easily, and one transaction takes quickly.</summary>
internal static class CandidateBatch
{
    private const int MostProfiles = 128;

    // The profiles' objects take a few times what their documents do.
    private const long MostBytes = 16 * 1024 * 1024;

    /// <summary>Reads candidates, a batch ahead of whoever takes them.</summary>
    /// <param name="candidates">The candidates.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>In their order, each with its document, or why there is none.</returns>
    public static IEnumerable<IReadOnlyList<ReadCandidate>> All(IReadOnlyList<ShelfCandidate> candidates, CancellationToken cancellation)
    {
        Task<IReadOnlyList<ReadCandidate>> next = ReadAsync(candidates, 0, cancellation);
        for (int begun = 0; begun < candidates.Count;)
        {
            IReadOnlyList<ReadCandidate> batch = next.GetAwaiter().GetResult();
            begun += batch.Count;
            next = ReadAsync(candidates, begun, cancellation);
            yield return batch;
        }
    }

    private static Task<IReadOnlyList<ReadCandidate>> ReadAsync(IReadOnlyList<ShelfCandidate> candidates, int from, CancellationToken cancellation) =>
        Task.Run<IReadOnlyList<ReadCandidate>>(() =>
        {
            var batch = new ReadCandidate[Math.Min(MostProfiles, candidates.Count - from)];
            int begun = 0;
            long bytes = 0;
            Parallel.For(0, Math.Min(Environment.ProcessorCount, batch.Length), new ParallelOptions { CancellationToken = cancellation }, _ =>
            {
                while (Interlocked.Read(ref bytes) < MostBytes && Interlocked.Increment(ref begun) - 1 is var one && one < batch.Length)
                {
                    cancellation.ThrowIfCancellationRequested();
                    batch[one] = Read(candidates[from + one], cancellation);
                    Interlocked.Add(ref bytes, batch[one].Document?.Bytes.Length ?? 0);
                }
            });
            return batch[..Math.Min(begun, batch.Length)];
        }, cancellation);

    private static ReadCandidate Read(ShelfCandidate candidate, CancellationToken cancellation)
    {
        try
        {
            return new ReadCandidate(candidate.Name, candidate.Read(cancellation), null);
        }
        catch (Exception e) when (e is ProfileFormatException or IOException or UnauthorizedAccessException)
        {
            return new ReadCandidate(candidate.Name, null, e);
        }
    }
}
