using SensorLab.Files;
using SensorLab.Frames;

namespace SensorLab.Simulation.Writing;

/// <summary>Writes frames as DNG files with Exif: the simulator's own writer, which shares nothing with the reader.</summary>
/// <remarks>
/// TIFF 6.0 sections 2, 8 and 15; DNG 1.7 chapters 2 and 4; Exif 2.32 section 4.6. What the frame does not say of itself
/// is left out of the file. Samples have the bits that the recording mode names, else the layout's.
/// </remarks>
public static class DngWriter
{
    /// <summary>Writes a file, whole or not at all: an existing one is replaced when the new one is complete.</summary>
    /// <param name="path">The file.</param>
    /// <param name="frame">What the frame says of itself, its geometry and declared levels.</param>
    /// <param name="codes">Codes in DN, stored rows × stored columns.</param>
    /// <param name="options">The form of the file.</param>
    /// <param name="preview">A preview for the first directory, the mosaic then in a sub-directory; null for none.</param>
    /// <exception cref="ArgumentException">The number of codes is not that of the layout, or the options don't fit together.</exception>
    /// <exception cref="IOException">The file could not be written.</exception>
    public static void Write(string path, RawFrame frame, ReadOnlySpan<ushort> codes, DngOptions options, JpegPreview? preview = null)
    {
        byte[] file = Encode(frame, codes, options, preview);
        WholeFile.Write(path, stream => stream.Write(file));
    }

    /// <summary>The bytes of a file.</summary>
    /// <param name="frame">What the frame says of itself, its geometry and declared levels.</param>
    /// <param name="codes">Codes in DN, stored rows × stored columns.</param>
    /// <param name="options">The form of the file.</param>
    /// <param name="preview">A preview for the first directory, the mosaic then in a sub-directory; null for none.</param>
    /// <returns>The whole file.</returns>
    /// <exception cref="ArgumentException">The number of codes is not that of the layout, or the options don't fit together.</exception>
    public static byte[] Encode(RawFrame frame, ReadOnlySpan<ushort> codes, DngOptions options, JpegPreview? preview = null)
    {
        int depth = frame.Metadata.Mode.BitDepth ?? frame.Layout.BitDepth;
        Demand(frame.Layout, depth, codes.Length, options);
        using var file = new TiffStream(options.IsBigEndian, (2 * codes.Length) + 8192);
        ReadOnlySpan<ushort> stored = options.LinearisationTable is { } table ? CodeTable.Stored(codes, table) : codes;
        TiffDirectory image = WriteImage(file, frame.Layout, depth, stored, options);
        DngTags.AddMosaic(image, frame, options);
        TiffDirectory first = image;
        if (options.IsBehindPreview || preview is not null)
        {
            first = new TiffDirectory();
            if (preview is null)
            {
                PreviewImage.Write(file, first, codes, frame.Layout, depth);
            }
            else
            {
                PreviewImage.Write(file, first, preview);
            }

            first.AddLong(TiffTag.SubDirectories, image.WriteTo(file));
        }

        DngTags.AddCamera(first, frame, options);
        var exif = new TiffDirectory();
        DngTags.AddExif(exif, frame.Metadata);
        first.AddLong(TiffTag.ExifDirectory, exif.WriteTo(file));
        return file.Finish(first.WriteTo(file));
    }

    private static void Demand(MosaicLayout layout, int depth, int codes, DngOptions options)
    {
        if (codes != layout.WidthPixels * layout.HeightPixels)
        {
            throw new ArgumentException($"The layout has {layout.WidthPixels} × {layout.HeightPixels} photosites, there are {codes} codes.", nameof(codes));
        }

        if (options.BitsPerSample is not (8 or 10 or 12 or 14 or 16) || options.BitsPerSample < depth)
        {
            throw new ArgumentException($"{options.BitsPerSample} bits a sample cannot hold {depth} bits a photosite.", nameof(options));
        }

        if (options.Tile is { } tile && (tile.Width < 16 || tile.Height < 16 || tile.Width % 16 != 0 || tile.Height % 16 != 0))
        {
            throw new ArgumentException("The sides of a tile must be multiples of 16.", nameof(options));
        }

        if (options.RowsPerStrip < 1)
        {
            throw new ArgumentException("A strip has at least one row.", nameof(options));
        }

        if (options.Compression == DngCompression.Lossless)
        {
            DemandLossless(options.LosslessJpeg, options.Tile?.Width ?? layout.WidthPixels, options.Tile?.Height ?? options.RowsPerStrip ?? layout.HeightPixels);
        }
    }

    private static void DemandLossless(LosslessJpegForm form, int width, int height)
    {
        if (form.Predictor is < 1 or > 7 || form.Components is not (1 or 2 or 4))
        {
            throw new ArgumentException("Lossless JPEG has the predictors 1 to 7, and 1, 2 or 4 components here.", nameof(form));
        }

        // T.81 B.2.2 and B.2.4.4: 16 bits for the sides and for the restart interval.
        int columns = width / form.Components;
        if (width % form.Components != 0 || columns > ushort.MaxValue || height > ushort.MaxValue)
        {
            throw new ArgumentException($"{width} × {height} samples cannot be dealt into {form.Components} components.", nameof(form));
        }

        if (form.RestartRows is { } rows && (rows < 1 || (long)rows * columns > ushort.MaxValue))
        {
            throw new ArgumentException("A restart interval has 1 to 65535 samples of each component.", nameof(form));
        }
    }

    private static TiffDirectory WriteImage(TiffStream file, MosaicLayout layout, int depth, ReadOnlySpan<ushort> codes, DngOptions options)
    {
        bool isTiled = options.Tile is not null;
        int width = options.Tile?.Width ?? layout.WidthPixels;
        int height = options.Tile?.Height ?? Math.Min(options.RowsPerStrip ?? layout.HeightPixels, layout.HeightPixels);
        var offsets = new List<uint>();
        var lengths = new List<uint>();
        for (int y = 0; y < layout.HeightPixels; y += height)
        {
            for (int x = 0; x < layout.WidthPixels; x += width)
            {
                int rows = isTiled ? height : Math.Min(height, layout.HeightPixels - y);
                byte[] bytes = SampleBlock.Cut(codes, layout.WidthPixels, x, y, width, rows).Encode(options, depth);
                file.Align();
                offsets.Add(file.Position);
                lengths.Add((uint)bytes.Length);
                file.Write(bytes);
            }
        }

        var image = new TiffDirectory();
        image.AddLong(isTiled ? TiffTag.TileOffsets : TiffTag.StripOffsets, [.. offsets]);
        image.AddLong(isTiled ? TiffTag.TileByteCounts : TiffTag.StripByteCounts, [.. lengths]);
        image.AddLong(isTiled ? TiffTag.TileLength : TiffTag.RowsPerStrip, (uint)height);
        if (isTiled)
        {
            image.AddLong(TiffTag.TileWidth, (uint)width);
        }

        return image;
    }
}
