namespace SensorLab.Measurement.Pixels;

/// <summary>Products of the values of pairs of sites.</summary>
/// <param name="Sum">Their sum in DN².</param>
/// <param name="Pairs">How many they are.</param>
internal readonly record struct NeighbourProducts(double Sum, double Pairs)
{
    public static NeighbourProducts operator +(NeighbourProducts a, NeighbourProducts b) => new(a.Sum + b.Sum, a.Pairs + b.Pairs);

    /// <summary>Writes them as bytes.</summary>
    public void Write(BinaryWriter to)
    {
        to.Write(Sum);
        to.Write(Pairs);
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static NeighbourProducts Read(BinaryReader from) => new(from.ReadDouble(), from.ReadDouble());
}
