using System.Buffers.Binary;
using SensorLab.RawFiles.LibRaw;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Previews;

/// <summary>The orientation that a JPEG says of itself.</summary>
/// <remarks>CIPA DC-008 (Exif), APP1: a TIFF header and directories in the segment; TIFF 6.0, section 2.</remarks>
internal static class ExifOrientation
{
    private const int App1 = 0xE1;
    private const int StartOfScan = 0xDA;
    private const int ExifHeaderBytes = 6;
    private const int TiffHeaderBytes = 8;
    private const int EntryBytes = 12;
    private const int ValueOffset = 8;

    /// <summary>Reads the tag of the first directory; those of thumbnails may lie otherwise.</summary>
    /// <param name="jpeg">A JPEG file.</param>
    /// <returns>1 to 8 as TIFF has it, or whatever stands there; null where nothing says.</returns>
    public static int? Of(ReadOnlySpan<byte> jpeg)
    {
        int position = 2;
        while (position + 4 <= jpeg.Length && jpeg[position] == 0xFF && jpeg[position + 1] != StartOfScan)
        {
            int length = BinaryPrimitives.ReadUInt16BigEndian(jpeg[(position + 2)..]);
            ReadOnlySpan<byte> rest = jpeg[(position + 4)..];
            if (jpeg[position + 1] == App1 && length - 2 >= ExifHeaderBytes + TiffHeaderBytes && rest.Length >= length - 2 && rest.StartsWith("Exif\0\0"u8))
            {
                return OfTiff(rest[ExifHeaderBytes..(length - 2)]);
            }

            position += 2 + Math.Max(2, length);
        }

        return null;
    }

    private static int? OfTiff(ReadOnlySpan<byte> tiff)
    {
        if (!RawFileScreen.IsTiff(tiff))
        {
            return null;
        }

        bool isBigEndian = tiff[0] == (byte)'M';
        uint directory = isBigEndian ? BinaryPrimitives.ReadUInt32BigEndian(tiff[4..]) : BinaryPrimitives.ReadUInt32LittleEndian(tiff[4..]);
        if (directory > tiff.Length - 2)
        {
            return null;
        }

        int entries = Short(tiff[(int)directory..], isBigEndian);
        for (int i = 0; i < entries; i++)
        {
            int at = (int)directory + 2 + (i * EntryBytes);
            if (at + EntryBytes > tiff.Length)
            {
                return null;
            }

            if (Short(tiff[at..], isBigEndian) == TiffTag.Orientation)
            {
                return Short(tiff[(at + ValueOffset)..], isBigEndian);
            }
        }

        return null;
    }

    private static int Short(ReadOnlySpan<byte> bytes, bool isBigEndian) =>
        isBigEndian ? BinaryPrimitives.ReadUInt16BigEndian(bytes) : BinaryPrimitives.ReadUInt16LittleEndian(bytes);
}
