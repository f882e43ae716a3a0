using System.Buffers.Binary;
using System.Text;

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
        TiffEntries main = new(file, 8, ValuesOffset);
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
        TiffEntries exif = new(file, ExifOffset, free);
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

    /// <summary>Writes the entries of one directory, longer values behind it.</summary>
    private sealed class TiffEntries(byte[] file, int directory, int values)
    {
        private int _values = values;
        private ushort _count;

        public void Bytes(ushort tag, params ReadOnlySpan<byte> value) => Write(tag, 1, value.Length, value);

        public void Text(ushort tag, string value) => Write(tag, 2, value.Length + 1, Encoding.ASCII.GetBytes(value + "\0"));

        public void Short(ushort tag, params ReadOnlySpan<ushort> value)
        {
            byte[] bytes = new byte[2 * value.Length];
            for (int i = 0; i < value.Length; i++)
            {
                BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(2 * i), value[i]);
            }

            Write(tag, 3, value.Length, bytes);
        }

        public void Long(ushort tag, params ReadOnlySpan<int> value) => Write(tag, 4, value.Length, Words(value));

        public void Rational(ushort tag, int numerator, int denominator) => Write(tag, 5, 1, Words([numerator, denominator]));

        /// <summary>Ends the directory without a next one; returns the first byte behind its values.</summary>
        public int Close()
        {
            BinaryPrimitives.WriteUInt16LittleEndian(file.AsSpan(directory), _count);
            return _values;
        }

        private static byte[] Words(ReadOnlySpan<int> value)
        {
            byte[] bytes = new byte[4 * value.Length];
            for (int i = 0; i < value.Length; i++)
            {
                BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4 * i), value[i]);
            }

            return bytes;
        }

        private void Write(ushort tag, ushort type, int count, ReadOnlySpan<byte> value)
        {
            Span<byte> entry = file.AsSpan(directory + 2 + (12 * _count), 12);
            BinaryPrimitives.WriteUInt16LittleEndian(entry, tag);
            BinaryPrimitives.WriteUInt16LittleEndian(entry[2..], type);
            BinaryPrimitives.WriteInt32LittleEndian(entry[4..], count);
            if (value.Length <= 4)
            {
                value.CopyTo(entry[8..]);
            }
            else
            {
                BinaryPrimitives.WriteInt32LittleEndian(entry[8..], _values);
                value.CopyTo(file.AsSpan(_values));
                _values += value.Length + (value.Length & 1);
            }

            _count++;
        }
    }
}
