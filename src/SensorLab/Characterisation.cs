using SensorLab.Assignment;
using SensorLab.Live;
using SensorLab.Profiles;

namespace SensorLab;

/// <summary>From a folder of frames to a sensor profile.</summary>
public static class Characterisation
{
    /// <summary>Reads and measures a frame set.</summary>
    /// <param name="framesFolder">The frame set's folder.</param>
    /// <param name="options">What the user chose.</param>
    /// <param name="progress">Told after every level, once for each of its frames; null for silence.</param>
    /// <param name="cancellation">Stops the work at once.</param>
    /// <returns>The sensor profile; its findings are part of it.</returns>
    /// <exception cref="FrameSetRefusedException">The set can give no figures; every reason is a finding.</exception>
    /// <exception cref="FrameTableException">The set's frames.csv cannot be followed.</exception>
    /// <exception cref="CharacterisationOptionsException">The region or the spot lies outside the frames.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static async Task<SensorProfile> RunAsync(
        string framesFolder,
        CharacterisationOptions options,
        IProgress<CharacterisationProgress>? progress = null,
        CancellationToken cancellation = default) =>
        await OfAsync(await new FrameSetFolder(RawFileAccess.Library).ReadAsync(framesFolder, options.Jobs, cancellation), options, progress, null, cancellation);

    /// <summary>Measures a frame set whose folder was read.</summary>
    /// <param name="contents">The folder.</param>
    /// <param name="options">What the user chose.</param>
    /// <param name="progress">As for <see cref="RunAsync"/>.</param>
    /// <param name="memory">What was measured before; null for nothing.</param>
    /// <param name="cancellation">Stops the work at once.</param>
    internal static async Task<SensorProfile> OfAsync(
        FrameSetContents contents,
        CharacterisationOptions options,
        IProgress<CharacterisationProgress>? progress,
        SetMemory? memory,
        CancellationToken cancellation)
    {
        UnsortedFolder.RequirePlainField(contents, RawFileAccess.Library, cancellation);
        MeasuredSet measured = await SetMeasurement.RunAsync(RawFileAccess.Library, contents, options, hashesFiles: true, progress, cancellation, memory);
        MeasuredPreviews previews = await PreviewMeter.MeasureAsync(contents, measured, options.Jobs, cancellation);
        return new ProfileAssembler(contents, measured, previews, options, cancellation).Assemble();
    }
}
