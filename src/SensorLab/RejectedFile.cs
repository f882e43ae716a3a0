using SensorLab.Frames;

namespace SensorLab;

/// <summary>A raw file of a frame set that could not be opened, or is no sensor data.</summary>
/// <param name="File">Path inside the frame set with forward slashes.</param>
/// <param name="Role">What it was meant for; null where nothing says.</param>
internal sealed record RejectedFile(string File, FrameRole? Role);
