namespace SensorLab.Profiles;

/// <summary>The size a picture is used at.</summary>
/// <param name="WidthPixels">Delivered columns.</param>
/// <param name="HeightPixels">Delivered rows.</param>
public sealed record Delivery(int WidthPixels, int HeightPixels);
