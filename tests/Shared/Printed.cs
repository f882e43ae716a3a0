namespace SensorLab.TestData;

/// <summary>A printed figure.</summary>
/// <param name="Value">The value.</param>
/// <param name="HalfWidth">What stands behind ±.</param>
/// <param name="Decimals">Decimals of the half-width.</param>
/// <param name="Text">As it was printed.</param>
internal sealed record Printed(double Value, double HalfWidth, int Decimals, string Text);
