using SensorLab.Profiles;

namespace SensorLab;

/// <summary>From a folder of frames to a sensor profile.</summary>
public static class Characterisation
{
    /// <summary>Reads and measures a frame set.</summary>
    /// <param name="framesFolder">The frame set's folder.</param>
    /// <param name="options">What the user chose.</param>
    /// <param name="progress">Told after every frame; null for silence.</param>
    /// <param name="cancellation">Stops the work at once.</param>
    /// <returns>The sensor profile; its findings are part of it.</returns>
    /// <exception cref="FrameSetRefusedException">The set can give no figures; every reason is a finding.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static Task<SensorProfile> RunAsync(
        string framesFolder,
        CharacterisationOptions options,
        IProgress<CharacterisationProgress>? progress = null,
        CancellationToken cancellation = default) =>
        throw new NotSupportedException();
}
