using SensorLab.Frames;

namespace SensorLab.Simulation.Writing;

/// <summary>The picture in the first directory of a file: a JPEG, or the mosaic made small in three uncompressed samples.</summary>
internal static class PreviewImage
{
    private const int LongestSide = 160;
    private const int SamplesAPixel = 3;

    /// <summary>Writes a JPEG and describes it in a directory.</summary>
    public static void Write(TiffStream file, TiffDirectory directory, JpegPreview preview)
    {
        Describe(file, directory, preview.Bytes, preview.WidthPixels, preview.HeightPixels);
        directory.AddShort(TiffTag.Compression, 7);
        directory.AddShort(TiffTag.PhotometricInterpretation, 6);
        directory.AddShort(TiffTag.YCbCrSubSampling, 1, 1);
    }

    /// <summary>Writes the picture's bytes and describes them in a directory.</summary>
    public static void Write(TiffStream file, TiffDirectory directory, ReadOnlySpan<ushort> codes, MosaicLayout layout, int depth)
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
                bytes.AsSpan(((y * width) + x) * SamplesAPixel, SamplesAPixel).Fill((byte)(code >> Math.Max(0, depth - 8)));
            }
        }

        Describe(file, directory, bytes, Math.Max(1, width), Math.Max(1, height));
        directory.AddShort(TiffTag.Compression, 1);
        directory.AddShort(TiffTag.PhotometricInterpretation, 2);
    }

    private static void Describe(TiffStream file, TiffDirectory directory, byte[] bytes, int width, int height)
    {
        file.Align();
        uint offset = file.Position;
        file.Write(bytes);
        directory.AddLong(TiffTag.NewSubfileType, 1);
        directory.AddLong(TiffTag.ImageWidth, (uint)width);
        directory.AddLong(TiffTag.ImageLength, (uint)height);
        directory.AddShort(TiffTag.BitsPerSample, 8, 8, 8);
        directory.AddLong(TiffTag.StripOffsets, offset);
        directory.AddShort(TiffTag.SamplesPerPixel, SamplesAPixel);
        directory.AddLong(TiffTag.RowsPerStrip, (uint)height);
        directory.AddLong(TiffTag.StripByteCounts, (uint)bytes.Length);
        directory.AddShort(TiffTag.PlanarConfiguration, 1);
    }
}
