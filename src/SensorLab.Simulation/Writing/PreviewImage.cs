using SensorLab.Frames;

namespace SensorLab.Simulation.Writing;

/// <summary>A small picture of the mosaic in three uncompressed samples: it stands where bodies put a thumbnail.</summary>
internal static class PreviewImage
{
    private const int LongestSide = 160;
    private const int SamplesAPixel = 3;

    /// <summary>Writes the picture's bytes and describes them in a directory.</summary>
    public static void Write(TiffStream file, TiffDirectory directory, ReadOnlySpan<ushort> codes, MosaicLayout layout)
    {
        int step = Math.Max(2, (Math.Max(layout.WidthPixels, layout.HeightPixels) + LongestSide - 1) / LongestSide);
        int width = layout.WidthPixels / step;
        int height = layout.HeightPixels / step;
        var bytes = new byte[Math.Max(1, width * height) * SamplesAPixel];
        for (int y = 0; y < height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                int code = codes[(y * step * layout.WidthPixels) + (x * step)];
                bytes.AsSpan(((y * width) + x) * SamplesAPixel, SamplesAPixel).Fill((byte)(code >> Math.Max(0, layout.BitDepth - 8)));
            }
        }

        file.Align();
        uint offset = file.Position;
        file.Write(bytes);
        directory.AddLong(TiffTag.NewSubfileType, 1);
        directory.AddLong(TiffTag.ImageWidth, (uint)Math.Max(1, width));
        directory.AddLong(TiffTag.ImageLength, (uint)Math.Max(1, height));
        directory.AddShort(TiffTag.BitsPerSample, 8, 8, 8);
        directory.AddShort(TiffTag.Compression, 1);
        directory.AddShort(TiffTag.PhotometricInterpretation, 2);
        directory.AddLong(TiffTag.StripOffsets, offset);
        directory.AddShort(TiffTag.SamplesPerPixel, SamplesAPixel);
        directory.AddLong(TiffTag.RowsPerStrip, (uint)Math.Max(1, height));
        directory.AddLong(TiffTag.StripByteCounts, (uint)bytes.Length);
        directory.AddShort(TiffTag.PlanarConfiguration, 1);
    }
}
