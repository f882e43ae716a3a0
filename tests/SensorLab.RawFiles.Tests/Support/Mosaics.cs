using SensorLab.Frames;
using SensorLab.RawFiles.Dng;

namespace SensorLab.RawFiles.Tests.Support;

/// <summary>Reads whole mosaics.</summary>
internal static class Mosaics
{
    public static ushort[] ReadAll(IMosaicReader reader, int? rowsAtOnce = null)
    {
        MosaicLayout layout = reader.Frame.Layout;
        var samples = new ushort[(long)layout.WidthPixels * layout.HeightPixels];
        int step = rowsAtOnce ?? reader.PreferredRows;
        for (int row = 0; row < layout.HeightPixels; row += step)
        {
            int rows = Math.Min(step, layout.HeightPixels - row);
            reader.ReadRows(samples.AsSpan(row * layout.WidthPixels, rows * layout.WidthPixels));
        }

        return samples;
    }

    public static ushort[] ReadAll(TestDng dng, int? rowsAtOnce = null)
    {
        using TemporaryFile file = dng.ToFile();
        using DngMosaicReader reader = DngMosaicReader.Open(file.Path);
        return ReadAll(reader, rowsAtOnce);
    }

    public static RawFrame FrameOf(TestDng dng)
    {
        using TemporaryFile file = dng.ToFile();
        using DngMosaicReader reader = DngMosaicReader.Open(file.Path);
        return reader.Frame;
    }
}
