namespace SensorLab.Simulation.Writing;

/// <summary>A preview as it lies in a file.</summary>
/// <param name="Bytes">A baseline JPEG.</param>
/// <param name="WidthPixels">Its columns.</param>
/// <param name="HeightPixels">Its rows.</param>
public sealed record JpegPreview(byte[] Bytes, int WidthPixels, int HeightPixels);
