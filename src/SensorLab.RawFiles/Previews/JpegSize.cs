using System.Buffers.Binary;

namespace SensorLab.RawFiles.Previews;

/// <summary>The size of a picture that a JPEG decoder of today opens: 8 bits, baseline or progressive.</summary>
/// <param name="Width">Columns.</param>
/// <param name="Height">Rows.</param>
/// <remarks>ITU-T T.81, annex B.</remarks>
internal readonly record struct JpegSize(int Width, int Height)
{
    private const int StartOfScan = 0xDA;
    private const int LastPictureFrame = 0xC2;
    private const int FirstFrame = 0xC0;

    /// <summary>Pixels.</summary>
    public long Area => (long)Width * Height;

    /// <summary>Reads a JPEG's size.</summary>
    /// <param name="jpeg">The file from its first byte on.</param>
    /// <returns>The size; null for anything else, lossless JPEG (raw data) included.</returns>
    public static JpegSize? Read(ReadOnlySpan<byte> jpeg)
    {
        if (!jpeg.StartsWith<byte>([0xFF, 0xD8, 0xFF]))
        {
            return null;
        }

        int position = 2;
        while (position + 4 <= jpeg.Length && jpeg[position] == 0xFF)
        {
            int marker = jpeg[position + 1];
            if (marker == 0xFF)
            {
                position++;
                continue;
            }

            int length = BinaryPrimitives.ReadUInt16BigEndian(jpeg[(position + 2)..]);
            if (marker is >= FirstFrame and <= LastPictureFrame)
            {
                return Frame(jpeg[(position + 4)..]);
            }

            if (marker == StartOfScan || length < 2)
            {
                return null;
            }

            position += 2 + length;
        }

        return null;
    }

    private static JpegSize? Frame(ReadOnlySpan<byte> frame)
    {
        if (frame.Length < 6 || frame[0] != 8 || frame[5] is not (1 or 3))
        {
            return null;
        }

        JpegSize size = new(BinaryPrimitives.ReadUInt16BigEndian(frame[3..]), BinaryPrimitives.ReadUInt16BigEndian(frame[1..]));
        return size.Area > 0 ? size : null;
    }
}
