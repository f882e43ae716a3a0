using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Pixels;

/// <summary>Numbers and lists of them as bytes, to the last bit; what may be absent has a byte before it.</summary>
internal static class StatisticsCode
{
    public static void WriteAll<T>(this BinaryWriter to, IReadOnlyList<T> items, Action<T> write)
    {
        to.Write7BitEncodedInt(items.Count);
        foreach (T item in items)
        {
            write(item);
        }
    }

    public static T[] ReadAll<T>(this BinaryReader from, Func<T> read)
    {
        int count = from.Read7BitEncodedInt();
        List<T> items = [];
        for (int i = 0; i < count; i++)
        {
            items.Add(read());
        }

        return [.. items];
    }

    public static void WriteIf<T>(this BinaryWriter to, T? item, Action<T> write)
        where T : class
    {
        to.Write(item is not null);
        if (item is not null)
        {
            write(item);
        }
    }

    public static T? ReadIf<T>(this BinaryReader from, Func<T> read)
        where T : class => from.ReadBoolean() ? read() : null;

    public static void Write(this BinaryWriter to, double? number)
    {
        to.Write(number is not null);
        to.Write(number ?? 0);
    }

    public static double? ReadDoubleIf(this BinaryReader from) => (from.ReadBoolean(), from.ReadDouble()) is (true, var number) ? number : null;

    public static void Write(this BinaryWriter to, Estimate? estimate)
    {
        to.Write(estimate is not null);
        (double value, double uncertainty, double freedom) = estimate ?? default;
        to.Write(value);
        to.Write(uncertainty);
        to.Write(freedom);
    }

    public static Estimate? ReadEstimateIf(this BinaryReader from)
    {
        bool isThere = from.ReadBoolean();
        var estimate = new Estimate(from.ReadDouble(), from.ReadDouble(), from.ReadDouble());
        return isThere ? estimate : null;
    }

    public static void Write(this BinaryWriter to, VarianceParts parts)
    {
        to.Write(parts.PixelDn2);
        to.Write(parts.PixelUncertaintyDn2);
        to.Write(parts.RowDn2);
        to.Write(parts.RowUncertaintyDn2);
        to.Write(parts.ColumnDn2);
        to.Write(parts.ColumnUncertaintyDn2);
    }

    public static VarianceParts ReadVarianceParts(this BinaryReader from) => new()
    {
        PixelDn2 = from.ReadDouble(),
        PixelUncertaintyDn2 = from.ReadDouble(),
        RowDn2 = from.ReadDouble(),
        RowUncertaintyDn2 = from.ReadDouble(),
        ColumnDn2 = from.ReadDouble(),
        ColumnUncertaintyDn2 = from.ReadDouble(),
    };
}
