namespace SensorLab.RawFiles.Previews;

/// <summary>The camera's own picture of a frame.</summary>
/// <param name="Jpeg">A JPEG file; only its header has been checked.</param>
/// <param name="WidthPixels">Columns as stored.</param>
/// <param name="HeightPixels">Rows as stored.</param>
/// <param name="QuarterTurns">By how many quarter turns clockwise the stored pixels are turned against the sensor's, 0 to 3.</param>
public sealed record CameraPreview(byte[] Jpeg, int WidthPixels, int HeightPixels, int QuarterTurns);
