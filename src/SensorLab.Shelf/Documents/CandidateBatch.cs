using SensorLab.Profiles;

namespace SensorLab.Shelf.Documents;

/// <summary>Reads candidates side by side, and hands them on in batches: as many as memory holds easily, and one turn of the disk takes quickly.</summary>
internal static class CandidateBatch
{
    private const int MostProfiles = 128;

    // The profiles' objects take a few times what their documents do.
    private const long MostBytes = 16 * 1024 * 1024;

    // Each processor has its next one at hand when the last of a batch is awaited.
    private static readonly int MostAhead = 6 * Environment.ProcessorCount;

    /// <summary>Reads candidates while the batches before them are worked on.</summary>
    /// <param name="candidates">The candidates.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <returns>In their order, each with its document, or why there is none.</returns>
    public static IEnumerable<IReadOnlyList<ReadCandidate>> All(IReadOnlyList<ShelfCandidate> candidates, CancellationToken cancellation)
    {
        var batch = new List<ReadCandidate>();
        long bytes = 0;
        foreach (ReadCandidate read in ReadAhead(candidates, cancellation))
        {
            batch.Add(read);
            bytes += SizeOf(read);
            if (bytes >= MostBytes || batch.Count == MostProfiles)
            {
                yield return batch;
                (batch, bytes) = ([], 0);
            }
        }

        if (batch.Count > 0)
        {
            yield return batch;
        }
    }

    private static IEnumerable<ReadCandidate> ReadAhead(IReadOnlyList<ShelfCandidate> candidates, CancellationToken cancellation)
    {
        var reading = new Queue<Task<ReadCandidate>>();
        long held = 0;
        for (int begun = 0; begun < candidates.Count || reading.Count > 0;)
        {
            while (begun < candidates.Count && (reading.Count == 0 || (reading.Count < MostAhead && Interlocked.Read(ref held) < MostBytes)))
            {
                ShelfCandidate candidate = candidates[begun++];
                reading.Enqueue(Task.Run(
                    () =>
                    {
                        ReadCandidate read = Read(candidate, cancellation);
                        Interlocked.Add(ref held, SizeOf(read));
                        return read;
                    },
                    cancellation));
            }

            ReadCandidate next = reading.Dequeue().GetAwaiter().GetResult();
            Interlocked.Add(ref held, -SizeOf(next));
            yield return next;
        }
    }

    private static long SizeOf(ReadCandidate read) => read.Document?.Bytes.Length ?? 0;

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
