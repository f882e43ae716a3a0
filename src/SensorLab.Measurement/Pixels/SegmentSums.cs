namespace SensorLab.Measurement.Pixels;

/// <summary>Sums over a segment of one frame.</summary>
/// <param name="Sum">Sum of values in DN.</param>
/// <param name="Squares">Sum of squares in DN².</param>
/// <param name="Products">Sum of products with the earlier frames' sum in DN².</param>
internal readonly record struct SegmentSums(double Sum, double Squares, double Products)
{
    public static SegmentSums operator +(SegmentSums a, SegmentSums b) => new(a.Sum + b.Sum, a.Squares + b.Squares, a.Products + b.Products);
}
