using System.Buffers.Binary;
using System.Globalization;
using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>What a JPEG file must be before it is decoded: whole, and of a size that exhausts no machine.</summary>
internal static class WholeJpeg
{
    /// <summary>Bytes of the end marker.</summary>
    private const int EndBytes = 2;

    /// <summary>The most pixels that a picture may claim: more than any camera's, less than what exhausts a machine.</summary>
    private const long MostPixels = 1L << 28;

    /// <summary>The same for a progressive picture, whose coefficients all lie in memory while it is decoded: six bytes a pixel.</summary>
    private const long MostProgressivePixels = 1L << 26;

    // One progressive picture at a time: side by side they would take a gigabyte.
    private static readonly Lock Progressive = new();

    /// <summary>Checks a file and decodes it.</summary>
    /// <param name="jpeg">The file.</param>
    /// <param name="widthPixels">The columns that it claims.</param>
    /// <param name="heightPixels">The rows that it claims.</param>
    /// <param name="decode">Decodes it.</param>
    /// <exception cref="MalformedFileException">It is cut off, or claims too much.</exception>
    public static T Read<T>(byte[] jpeg, int widthPixels, int heightPixels, Func<T> decode)
    {
        bool isProgressive = IsProgressive(jpeg);
        if ((long)widthPixels * heightPixels > (isProgressive ? MostProgressivePixels : MostPixels))
        {
            throw new MalformedFileException(string.Create(CultureInfo.InvariantCulture, $"The {(isProgressive ? "progressive " : string.Empty)}picture claims {widthPixels} × {heightPixels} pixels."));
        }

        RequireWhole(jpeg);
        if (!isProgressive)
        {
            return decode();
        }

        lock (Progressive)
        {
            return decode();
        }
    }

    // ITU-T T.81, annex B: segments follow each other up to the frame's, 0xC2 of a progressive one; 0xC4, 0xC8 and 0xCC begin no frame.
    private static bool IsProgressive(ReadOnlySpan<byte> jpeg)
    {
        for (int at = 2; at + 4 <= jpeg.Length && jpeg[at] == 0xFF;)
        {
            byte marker = jpeg[at + 1];
            if (marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC))
            {
                return marker == 0xC2;
            }

            at += marker == 0xFF ? 1 : 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg[(at + 2)..]);
        }

        return false;
    }

    // The decoder fills what is missing with grey and says nothing. Behind the end some cameras add small pictures, all whole.
    private static void RequireWhole(ReadOnlySpan<byte> jpeg)
    {
        int end = jpeg.LastIndexOf<byte>([0xFF, 0xD9]);
        if (end < jpeg.Length - (jpeg.Length / 4) - EndBytes)
        {
            throw new MalformedFileException("The picture is cut off.");
        }
    }
}
