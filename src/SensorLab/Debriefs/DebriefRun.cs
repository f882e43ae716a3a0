using System.Collections.Concurrent;
using System.Globalization;
using SensorLab.Debrief;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.RawFiles.Previews;

namespace SensorLab.Debriefs;

/// <summary>Reads the raw files of a finished assignment beside the body's profile: every file's pixels once, several files at once.</summary>
/// <remarks>Memory holds a few rows of each file being read (the whole mosaic where LibRaw decodes it) and a small picture of each frame.</remarks>
public sealed class DebriefRun
{
    /// <summary>Frames with a picture: more would make a page that no browser opens at once.</summary>
    public const int MostPictures = 3000;

    private readonly RawFileAccess _files;
    private readonly SensorProfile _profile;
    private readonly FrameReview _review;
    private readonly ConcurrentBag<Finding> _findings = [];

    private DebriefRun(RawFileAccess files, SensorProfile profile)
    {
        _files = files;
        _profile = profile;
        _review = new FrameReview(profile);
    }

    /// <summary>Debriefs a folder.</summary>
    /// <param name="profile">The body's profile.</param>
    /// <param name="folder">The folder with the assignment's raw files, at any depth.</param>
    /// <param name="jobs">Files read at once, 1 or more.</param>
    /// <param name="progress">Told after every frame; null for silence.</param>
    /// <param name="cancellation">Stops the work at once.</param>
    /// <returns>The day; the same for any <paramref name="jobs"/>. What cannot be judged is among its findings.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="jobs"/> is below 1.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist, or is a file.</exception>
    /// <exception cref="JobRefusedException">There is no raw file, or none that the profile can speak for.</exception>
    /// <exception cref="MalformedFileException">The folder holds more raw files than any assignment.</exception>
    /// <exception cref="IOException">The folder cannot be read.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static Task<DayDebrief> RunAsync(
        SensorProfile profile, string folder, int jobs, IProgress<CharacterisationProgress>? progress = null, CancellationToken cancellation = default) =>
        new DebriefRun(RawFileAccess.Library, profile).RunAsync(folder, jobs, progress, cancellation);

    private async Task<DayDebrief> RunAsync(string folder, int jobs, IProgress<CharacterisationProgress>? progress, CancellationToken cancellation)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(jobs, 1);
        (string root, IReadOnlyList<string> raw, _) = JobFolder.RawFilesOf(folder, _files, _findings.Add, cancellation);
        var reviewed = new FrameDebrief?[raw.Count];
        int done = 0;
        await Parallel.ForEachAsync(
            Enumerable.Range(0, raw.Count),
            new ParallelOptions { MaxDegreeOfParallelism = jobs, CancellationToken = cancellation },
            (i, stop) =>
            {
                FrameDebrief? frame = Review(root, raw[i], stop);
                reviewed[i] = i < MostPictures ? frame : frame is null ? null : frame with { Picture = null };
                progress?.Report(new CharacterisationProgress(Interlocked.Increment(ref done), raw.Count, raw[i]));
                return ValueTask.CompletedTask;
            });
        FrameDebrief[] frames = [.. reviewed.OfType<FrameDebrief>()];
        IReadOnlyList<Finding> findings = JobFindings.Merged(_findings, raw.Count);
        return frames.Length > 0 ? DayDebrief.Of(_profile, frames, findings) : throw new JobRefusedException(findings.Count > 0 ? findings : [JobFindings.None(folder)]);
    }

    private FrameDebrief? Review(string root, string file, CancellationToken cancellation)
    {
        string path = Path.Combine(root, file);
        try
        {
            using IMosaicReader reader = _files.Open(path);
            if ((FrameKinship.Stranger(_profile, file, reader.Frame) ?? Unmeasured(file, reader.Frame)) is { } stranger)
            {
                _findings.Add(stranger);
                return null;
            }

            if (FrameKinship.IsOtherFirmware(_profile, reader.Frame))
            {
                _findings.Add(JobFindings.OtherFirmware(_profile, file, reader.Frame));
            }

            PreviewTones? preview = PreviewReader.Read(path, reader.Frame, trouble => _findings.Add(trouble with { Frames = [file] }));
            return _review.Of(file, reader, preview, FrameTurn.UprightTurns(path), cancellation);
        }
        catch (Exception e) when (e is UnsupportedFileException or MalformedFileException or IOException or UnauthorizedAccessException)
        {
            _findings.Add(FolderFindings.Of(file, e));
            return null;
        }
    }

    private Finding? Unmeasured(string file, RawFrame frame) => _review.Knows(frame.Metadata.Iso!.Value) ? null : new Finding
    {
        Code = FindingCode.SaturationNotReached,
        Severity = FindingSeverity.Warning,
        Iso = frame.Metadata.Iso,
        Frames = [file],
        Message = string.Create(CultureInfo.InvariantCulture, $"The profile does not tell where ISO {frame.Metadata.Iso} clips: its bracket ended before, or its noise was not measured. Left out."),
        Remedy = "Shoot this ISO's bracket on to where every channel clips, and measure it again.",
    };
}
