using SensorLab.Frames;

namespace SensorLab.Benchmarks;

/// <summary>Nothing but reading and decoding, in bands as a measurement reads.</summary>
internal static class FrameReading
{
    /// <summary>Reads a file's mosaic from top to bottom.</summary>
    /// <returns>Its last code, so that nothing is left out.</returns>
    public static int ReadAll(string path)
    {
        using IMosaicReader reader = RawFiles.RawFileOpener.Open(path);
        MosaicLayout layout = reader.Frame.Layout;
        int rows = reader.PreferredRows;
        var values = new ushort[Math.Min(rows, layout.HeightPixels) * layout.WidthPixels];
        int last = 0;
        for (int row = 0; row < layout.HeightPixels; row += rows)
        {
            Span<ushort> band = values.AsSpan(0, Math.Min(rows, layout.HeightPixels - row) * layout.WidthPixels);
            reader.ReadRows(band);
            last = band[^1];
        }

        return last;
    }
}
