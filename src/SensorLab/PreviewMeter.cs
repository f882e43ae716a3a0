using System.Collections.Concurrent;
using SensorLab.Frames;
using SensorLab.Imaging;
using SensorLab.Measurement.Previews;
using SensorLab.Profiles;
using SensorLab.RawFiles.Previews;
using SensorLab.Sets;

namespace SensorLab;

/// <summary>Reads the previews of a measured set: of every lit level and look one, of a few levels a second to judge constancy by.</summary>
internal sealed class PreviewMeter
{
    /// <summary>Levels of an ISO and look of which a second preview is read.</summary>
    private const int JudgedLevels = 6;

    /// <summary>What a look is called where neither the frame nor the table names it.</summary>
    private const string Unnamed = "as shot";

    private readonly string _folder;
    private readonly PixelRectangle _region;
    private readonly ConcurrentDictionary<string, (int Iso, string Why)> _troubles = new(StringComparer.Ordinal);
    private volatile bool _isLibraryMissing;

    private PreviewMeter(string folder, PixelRectangle region)
    {
        _folder = folder;
        _region = region;
    }

    /// <summary>Reads the previews of a set that was measured.</summary>
    /// <param name="contents">The frame set.</param>
    /// <param name="measured">Its levels, and where they were measured.</param>
    /// <param name="jobs">Previews decoded at once.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static Task<MeasuredPreviews> MeasureAsync(FrameSetContents contents, MeasuredSet measured, int jobs, CancellationToken cancellation) =>
        Task.Run(() => new PreviewMeter(contents.Folder, measured.Area.Region).Measure([.. measured.Levels.Select(l => l.Level)], jobs, cancellation), cancellation);

    private MeasuredPreviews Measure(IReadOnlyList<Level> levels, int jobs, CancellationToken cancellation)
    {
        (Level Level, int Frame)[] wanted = [.. Wanted(levels)];
        var codes = new PreviewCodes?[wanted.Length];
        Parallel.For(0, wanted.Length, new ParallelOptions { MaxDegreeOfParallelism = jobs, CancellationToken = cancellation }, i =>
            codes[i] = CodesOf(wanted[i].Level, wanted[i].Frame));
        Dictionary<Level, IReadOnlyList<PreviewCodes>> byLevel = wanted
            .Zip(codes)
            .Where(p => p.Second is not null)
            .GroupBy(p => p.First.Level)
            .ToDictionary(g => g.Key, g => (IReadOnlyList<PreviewCodes>)[.. g.Select(p => p.Second!)]);
        IEnumerable<int> isos = levels.Select(l => l.Key.Iso).Distinct();
        return new MeasuredPreviews(byLevel, PreviewTroubles.Findings(isos, byLevel.Keys.Select(l => l.Key.Iso).ToHashSet(), _isLibraryMissing, _troubles));
    }

    private static IEnumerable<(Level Level, int Frame)> Wanted(IReadOnlyList<Level> levels)
    {
        foreach (var group in levels
            .Where(l => l.Key.Role is FrameRole.Bracket or FrameRole.Metered)
            .SelectMany(l => l.Frames.Select((f, i) => (Level: l, Frame: i, Look: LookOf(f))))
            .GroupBy(f => (f.Level.Key.Iso, f.Look)))
        {
            (Level Level, int[] Frames)[] byLevel = [.. group.GroupBy(f => f.Level).Select(g => (g.Key, g.Select(f => f.Frame).ToArray()))];
            int[] pairs = [.. Enumerable.Range(0, byLevel.Length).Where(i => byLevel[i].Frames.Length > 1)];
            HashSet<int> judged = [.. Enumerable.Range(0, JudgedLevels).Where(_ => pairs.Length > 0).Select(i => pairs[((2 * i) + 1) * pairs.Length / (2 * JudgedLevels)])];
            for (int i = 0; i < byLevel.Length; i++)
            {
                foreach (int frame in byLevel[i].Frames.Take(judged.Contains(i) ? 2 : 1))
                {
                    yield return (byLevel[i].Level, frame);
                }
            }
        }
    }

    private PreviewCodes? CodesOf(Level level, int index)
    {
        SetFrame frame = level.Frames[index];
        PixelRectangle active = frame.Raw.Layout.ActiveArea;
        if (_isLibraryMissing)
        {
            return null;
        }

        try
        {
            if (PreviewExtractor.Find(Path.Combine(_folder, frame.File), active.Width >= active.Height) is not { } preview)
            {
                return null;
            }

            PixelRectangle? region = PreviewRegion.Of(_region, active.Width, active.Height, preview.WidthPixels, preview.HeightPixels, preview.QuarterTurns);
            if (region is null)
            {
                _troubles[frame.File] = (level.Key.Iso, "the region measured is too small in it.");
                return null;
            }

            JpegCodes counts = JpegCodes.Of(preview.Jpeg, preview.WidthPixels, preview.HeightPixels, region.Value);
            return new PreviewCodes(LookOf(frame), index, CodeMedian.Of([.. counts.Red]), CodeMedian.Of([.. counts.Green]), CodeMedian.Of([.. counts.Blue]));
        }
        catch (ImagingLibraryMissingException)
        {
            _isLibraryMissing = true;
        }
        catch (Exception e) when (e is MalformedFileException or IOException or UnauthorizedAccessException)
        {
            _troubles[frame.File] = (level.Key.Iso, e.Message);
        }

        return null;
    }

    private static string LookOf(SetFrame frame) => string.IsNullOrWhiteSpace(frame.Raw.Metadata.Look) ? Unnamed : frame.Raw.Metadata.Look;
}
