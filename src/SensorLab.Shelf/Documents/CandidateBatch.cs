using SensorLab.Profiles;

namespace SensorLab.Shelf.Documents;

/// <summary>Reads candidates side by side, a batch at a time: as many as memory holds easily, and one transaction takes quickly.</summary>
internal static class CandidateBatch
{
    private const int MostProfiles = 128;

    // The profiles' objects take a few times what their documents do.
    private const long MostBytes = 48 * 1024 * 1024;

    /// <summary>Reads a batch.</summary>
    /// <param name="candidates">All candidates.</param>
    /// <param name="from">The first of the batch.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>Each with its document, or why there is none; empty after the last.</returns>
    public static Task<IReadOnlyList<ReadCandidate>> ReadAsync(IReadOnlyList<ShelfCandidate> candidates, int from, CancellationToken cancellation) =>
        Task.Run<IReadOnlyList<ReadCandidate>>(() =>
        {
            var batch = new List<ReadCandidate>();
            long bytes = 0;
            while (from + batch.Count < candidates.Count && batch.Count < MostProfiles && bytes < MostBytes)
            {
                var read = new ReadCandidate[Math.Min(Environment.ProcessorCount, candidates.Count - from - batch.Count)];
                int first = from + batch.Count;
                Parallel.For(0, read.Length, new ParallelOptions { CancellationToken = cancellation }, i => read[i] = Read(candidates[first + i], cancellation));
                batch.AddRange(read);
                bytes += read.Sum(r => (long)(r.Document?.Bytes.Length ?? 0));
            }

            return batch;
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
