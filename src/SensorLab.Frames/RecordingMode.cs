namespace SensorLab.Frames;

/// <summary>How the body recorded: the same ISO is another sensor in another mode. Unknown parts are null.</summary>
/// <param name="BitDepth">Bits a photosite as recorded.</param>
/// <param name="Compression">"uncompressed", "lossless", "deflate" or "lossy".</param>
/// <param name="Shutter">For example "mechanical", "electronic" or "electronic first curtain".</param>
/// <param name="Drive">For example "single" or "continuous".</param>
/// <param name="NoiseReduction">In-camera noise reduction of raw data, long exposures included.</param>
/// <param name="Crop">The crop of the sensor in force.</param>
/// <param name="Name">The user's own name for the mode, from the column <c>mode</c> of frames.csv.</param>
public sealed record RecordingMode(
    int? BitDepth = null,
    string? Compression = null,
    string? Shutter = null,
    string? Drive = null,
    string? NoiseReduction = null,
    string? Crop = null,
    string? Name = null);
