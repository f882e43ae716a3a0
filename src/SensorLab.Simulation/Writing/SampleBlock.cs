using System.Buffers.Binary;
using System.IO.Compression;

namespace SensorLab.Simulation.Writing;

/// <summary>A strip or a tile of samples on its way into a file.</summary>
/// <param name="Samples">Rows × <paramref name="Width"/>.</param>
/// <param name="Width">Samples a row.</param>
internal readonly record struct SampleBlock(ushort[] Samples, int Width)
{
    /// <summary>Rows.</summary>
    public int Height => Samples.Length / Width;

    /// <summary>Cuts a block out of a mosaic; what lies outside repeats the last row or column.</summary>
    public static SampleBlock Cut(ReadOnlySpan<ushort> codes, int mosaicWidth, int x, int y, int width, int height)
    {
        int mosaicHeight = codes.Length / mosaicWidth;
        var samples = new ushort[width * height];
        for (int row = 0; row < height; row++)
        {
            ReadOnlySpan<ushort> source = codes.Slice(Math.Min(y + row, mosaicHeight - 1) * mosaicWidth, mosaicWidth)[x..];
            Span<ushort> target = samples.AsSpan(row * width, width);
            int inside = Math.Min(width, source.Length);
            source[..inside].CopyTo(target);
            target[inside..].Fill(target[inside - 1]);
        }

        return new SampleBlock(samples, width);
    }

    /// <summary>The bytes of the block in a file.</summary>
    /// <param name="options">The form of the file.</param>
    /// <param name="bitDepth">Bits that a sample has, for lossless JPEG.</param>
    public byte[] Encode(DngOptions options, int bitDepth) => options.Compression switch
    {
        DngCompression.Lossless => LosslessJpegEncoder.Encode(Samples, Width, bitDepth, options.LosslessJpeg),
        DngCompression.Deflate => Deflate(Pack(options.BitsPerSample, options.IsBigEndian)),
        _ => Pack(options.BitsPerSample, options.IsBigEndian),
    };

    private static byte[] Deflate(byte[] bytes)
    {
        using var target = new MemoryStream();
        using (var zlib = new ZLibStream(target, CompressionLevel.Optimal))
        {
            zlib.Write(bytes);
        }

        return target.ToArray();
    }

    private byte[] Pack(int bits, bool isBigEndian)
    {
        if (bits == 16)
        {
            return PackWords(isBigEndian);
        }

        int bytesARow = ((Width * bits) + 7) / 8;
        var bytes = new byte[bytesARow * Height];
        for (int row = 0; row < Height; row++)
        {
            PackRow(Samples.AsSpan(row * Width, Width), bits, bytes.AsSpan(row * bytesARow, bytesARow));
        }

        return bytes;
    }

    private byte[] PackWords(bool isBigEndian)
    {
        var bytes = new byte[2 * Samples.Length];
        for (int i = 0; i < Samples.Length; i++)
        {
            Span<byte> target = bytes.AsSpan(2 * i, 2);
            if (isBigEndian)
            {
                BinaryPrimitives.WriteUInt16BigEndian(target, Samples[i]);
            }
            else
            {
                BinaryPrimitives.WriteUInt16LittleEndian(target, Samples[i]);
            }
        }

        return bytes;
    }

    // TIFF 6.0 packs from the most significant bit in either byte order (FillOrder 1).
    private static void PackRow(ReadOnlySpan<ushort> samples, int bits, Span<byte> target)
    {
        uint held = 0;
        int heldBits = 0;
        int next = 0;
        foreach (ushort sample in samples)
        {
            held = (held << bits) | sample;
            heldBits += bits;
            while (heldBits >= 8)
            {
                heldBits -= 8;
                target[next++] = (byte)(held >> heldBits);
            }

            held &= (1u << heldBits) - 1;
        }

        if (heldBits > 0)
        {
            target[next] = (byte)(held << (8 - heldBits));
        }
    }
}
