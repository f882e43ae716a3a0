using System.Runtime.ExceptionServices;
using System.Text;
using SensorLab.Files;
using SensorLab.Frames;

namespace SensorLab.Simulation.Rehearsals;

/// <summary>Writes simulated frame sets with their truth beside them.</summary>
public static class Rehearsal
{
    /// <summary>Writes a rehearsal: the folder with dark/, metered/ and bracket/, and FOLDER.truth.json beside it.</summary>
    /// <param name="folder">The folder. It is made, or replaced when it is empty or a rehearsal itself.</param>
    /// <param name="options">What the rehearsal is of.</param>
    /// <param name="progress">Told after every frame, from any thread.</param>
    /// <param name="cancellation">Ends the work; nothing half-written is left.</param>
    /// <returns>The truth, as written.</returns>
    /// <exception cref="RehearsalUsageException">The options ask for what the body does not have.</exception>
    /// <exception cref="RehearsalFolderException">The folder holds something that is not a rehearsal.</exception>
    /// <exception cref="MalformedFileException">A property of the body is out of its domain.</exception>
    /// <exception cref="IOException">A file could not be written.</exception>
    /// <exception cref="UnauthorizedAccessException">A file may not be written.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static IReadOnlyList<IsoTruth> Write(
        string folder,
        RehearsalOptions options,
        IProgress<RehearsalProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        RehearsalPlan plan = RehearsalPlan.Of(options);
        IReadOnlyList<IsoTruth> truth = RehearsalTruth.Of(plan);
        var place = new RehearsalFolder(folder);
        new WholeOutput()
            .WithWholeFolder(place.Folder, Fill, place.DemandFree)
            .WithFile(place.TruthFile, stream => stream.Write(Encoding.UTF8.GetBytes(RehearsalTruth.ToText(truth))))
            .PutInPlace(cancellation);
        return truth;

        void Fill(string staging)
        {
            WriteFrames(plan, staging, options.Jobs, progress, cancellation);
            if (FrameTable.Of(plan.Frames) is { } table)
            {
                File.WriteAllText(Path.Combine(staging, "frames.csv"), table);
            }
        }
    }

    private static void WriteFrames(
        RehearsalPlan plan,
        string folder,
        int? jobs,
        IProgress<RehearsalProgress>? progress,
        CancellationToken cancellation)
    {
        foreach (PlannedFrame frame in plan.Frames)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(Path.Combine(folder, frame.File))!);
        }

        int written = 0;
        var parallel = new ParallelOptions
        {
            MaxDegreeOfParallelism = jobs ?? Environment.ProcessorCount,
            CancellationToken = cancellation,
        };
        try
        {
            Parallel.ForEach(plan.Frames, parallel, frame =>
            {
                File.WriteAllBytes(Path.Combine(folder, frame.File), plan.Encode(frame));
                progress?.Report(new RehearsalProgress(Interlocked.Increment(ref written), plan.Frames.Count));
            });
        }
        catch (AggregateException several) when (several.InnerException is not null)
        {
            // The first failure is the reason; the other threads' failures follow from it or say the same.
            ExceptionDispatchInfo.Throw(several.InnerException);
        }
    }
}
