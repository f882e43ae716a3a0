using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Assignment;

/// <summary>What a folder without a single role holds: before anything else is said, whether it is everyday pictures.</summary>
internal static class UnsortedFolder
{
    /// <summary>Frames looked at, evenly over the folder: enough to tell a holiday from an evening before a white wall.</summary>
    private const int FramesLookedAt = 12;

    private const int FewestFrames = 2;

    /// <summary>Requires that a folder without roles does not hold everyday pictures.</summary>
    /// <param name="contents">The folder.</param>
    /// <param name="files">How its files are opened.</param>
    /// <param name="cancellation">Stops the look.</param>
    /// <exception cref="FrameSetRefusedException">No frame has a role, and most frames looked at show no plain field.</exception>
    public static void RequirePlainField(FrameSetContents contents, RawFileAccess files, CancellationToken cancellation)
    {
        SetFrame[] known = [.. contents.Frames.Where(f => f.Raw.Metadata is { Iso: not null, ExposureSeconds: > 0 })];
        if (known.Length < FewestFrames || contents.Frames.Any(f => f.Role is not null))
        {
            return;
        }

        int count = Math.Min(FramesLookedAt, known.Length);
        List<SampledFrame> samples = [];
        foreach (SetFrame frame in Enumerable.Range(0, count).Select(i => known[i * (known.Length - 1) / (count - 1)]))
        {
            cancellation.ThrowIfCancellationRequested();
            if (SampleOf(frame, contents.Folder, files) is { } sample)
            {
                samples.Add(new SampledFrame { File = frame.File, Raw = frame.Raw, Sample = sample, ContentKey = frame.ContentKey });
            }
        }

        IReadOnlyList<string> everyday = CardReader.EverydayPicturesAmong(samples);
        if (2 * everyday.Count > samples.Count)
        {
            throw new FrameSetRefusedException([Everyday(everyday, samples.Count)]);
        }
    }

    private static FrameSample? SampleOf(SetFrame frame, string folder, RawFileAccess files)
    {
        try
        {
            using IMosaicReader reader = files.Reopen(Path.Combine(folder, frame.File), frame.Raw);
            return FrameSampler.Of(reader);
        }
        catch (Exception e) when (e is MalformedFileException or UnsupportedFileException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static Finding Everyday(IReadOnlyList<string> files, int lookedAt) => new()
    {
        Code = FindingCode.FramesNone,
        Severity = FindingSeverity.Refusal,
        Frames = [.. files.Order(StringComparer.Ordinal)],
        Size = files.Count,
        SizeUnit = "count",
        Message = string.Create(CultureInfo.InvariantCulture, $"These are no frames of a plain field: {files.Count} of {lookedAt} looked at are textured and differently lit, as everyday pictures are."),
        Remedy = "Shoot a set of a plain, evenly lit field, out of focus: \"sensorlab plan\" makes the shot list.",
    };
}
