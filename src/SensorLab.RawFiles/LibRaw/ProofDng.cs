using System.Buffers.Binary;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>
/// A small DNG of known content, on which a LibRaw build has to show where it keeps things: margins on all
/// sides, a masked border, four distinct blacks, no two neighbouring photosites alike.
/// </summary>
/// <remarks>TIFF 6.0, chapter 2; DNG 1.7, chapter 4.</remarks>
internal static class ProofDng
{
    public const int WidthPixels = 120;
    public const int HeightPixels = 96;
    public const int LeftMargin = 18;
    public const int TopMargin = 10;
    public const int ActiveWidth = 96;
    public const int ActiveHeight = 80;
    public const int MaskRight = 14;
    public const int White = 15321;
    public const int Iso = 320;
    public const float ExposureSeconds = 0.125f;
    public const float FNumber = 5.5f;
    public const string Maker = "Larkmoor";
    public const string Model = "LM-2";

    private const int HeaderBytes = 1024;
    private const int ExifOffset = 600;
    private const int ValuesOffset = 700;

    private static readonly ushort[] Blacks = [513, 519, 531, 546];

    /// <summary>The black declared for a photosite of the active area, counted from its top left.</summary>
    public static int BlackAt(int row, int column) => Blacks[(2 * (row & 1)) + (column & 1)];

    /// <summary>The stored code of a photosite, counted from the top left of what is stored.</summary>
    public static ushort CodeAt(int row, int column) => column < MaskRight && row >= TopMargin && row < TopMargin + ActiveHeight
        ? (ushort)BlackAt(row - TopMargin, column - LeftMargin)
        : (ushort)(1000 + ((((row * WidthPixels) + column) * 7919) % 12007));

    /// <summary>The file.</summary>
    public static byte[] Encode()
    {
        byte[] file = new byte[HeaderBytes + (2 * WidthPixels * HeightPixels)];
        "II*\0"u8.CopyTo(file);
        BinaryPrimitives.WriteUInt32LittleEndian(file.AsSpan(4), 8);
        TiffDirectoryWriter main = new(file, 8, ValuesOffset);
        main.Long(254, 0);
        main.Long(256, WidthPixels);
        main.Long(257, HeightPixels);
        main.Short(258, 16);
        main.Short(259, 1);
        main.Short(262, 32803);
        main.Text(271, Maker);
        main.Text(272, Model);
        main.Long(273, HeaderBytes);
        main.Short(277, 1);
        main.Long(278, HeightPixels);
        main.Long(279, 2 * WidthPixels * HeightPixels);
        main.Short(284, 1);
        main.Short(33421, 2, 2);
        main.Bytes(33422, 1, 0, 2, 1);
        main.Long(34665, ExifOffset);
        main.Bytes(50706, 1, 4, 0, 0);
        main.Text(50708, Maker + " " + Model);
        main.Short(50713, 2, 2);
        main.Short(50714, Blacks);
        main.Short(50717, White);
        main.Long(50829, TopMargin, LeftMargin, TopMargin + ActiveHeight, LeftMargin + ActiveWidth);
        main.Long(50830, TopMargin, 0, TopMargin + ActiveHeight, MaskRight);
        int free = main.Close();
        TiffDirectoryWriter exif = new(file, ExifOffset, free);
        exif.Rational(33434, 1, 8);
        exif.Rational(33437, 11, 2);
        exif.Short(34855, Iso);
        _ = exif.Close();
        for (int i = 0; i < WidthPixels * HeightPixels; i++)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(HeaderBytes + (2 * i)), CodeAt(i / WidthPixels, i % WidthPixels));
        }

        return file;
    }
}
