using System.Numerics;
using SensorLab.Frames;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Dng;

/// <summary>The table that turns stored codes into linear ones; codes above its end take its last value.</summary>
/// <remarks>DNG 1.7, chapter 4, LinearizationTable, and chapter 5, "Linearization".</remarks>
internal sealed class LinearizationTable
{
    private const int MostCodes = 1 << 16;

    private readonly ushort[] _linear;

    private LinearizationTable(ushort[] linear)
    {
        _linear = linear;
        LargestDn = linear.Max();
        IsCompanding = CurveSteps.Grow(linear);
    }

    /// <summary>The highest value that the table gives, in DN.</summary>
    public int LargestDn { get; }

    /// <summary>Bits that its values need.</summary>
    public int BitDepth => BitOperations.Log2((uint)Math.Max(LargestDn, 1)) + 1;

    /// <summary>Whether its steps grow with the signal, as in a maker's curve.</summary>
    public bool IsCompanding { get; }

    /// <summary>The table of a raw image, null where there is none.</summary>
    /// <param name="raw">The raw image's directory.</param>
    /// <exception cref="MalformedFileException">An empty table, or one of more than 65,536 codes or values.</exception>
    public static LinearizationTable? Read(TiffDirectory raw)
    {
        if (!raw.Has(TiffTag.LinearizationTable))
        {
            return null;
        }

        uint[] values = raw.Integers(TiffTag.LinearizationTable, MostCodes);
        return values.Length > 0 && values.Max() <= ushort.MaxValue
            ? new LinearizationTable(Array.ConvertAll(values, value => (ushort)value))
            : throw new MalformedFileException("The linearisation table is empty or holds values of more than 16 bits.");
    }

    /// <summary>Linearises codes in place.</summary>
    /// <param name="codes">Stored codes in, DN out.</param>
    public void Apply(Span<ushort> codes)
    {
        ReadOnlySpan<ushort> linear = _linear;
        int last = linear.Length - 1;
        for (int i = 0; i < codes.Length; i++)
        {
            codes[i] = linear[Math.Min(codes[i], last)];
        }
    }
}
