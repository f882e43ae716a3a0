namespace SensorLab.RawFiles.Tiff;

/// <summary>An entry of a directory: its values stay in the file until they are asked for.</summary>
/// <param name="Type">The values' type; entries of unknown types are never made.</param>
/// <param name="Count">How many values the file claims.</param>
/// <param name="ValueOffset">Where the first value lies, from the file's start.</param>
internal readonly record struct TiffEntry(TiffFieldType Type, uint Count, long ValueOffset)
{
    /// <summary>Bytes of one value.</summary>
    public int ValueBytes => BytesOf(Type);

    /// <summary>Bytes of all values, as claimed.</summary>
    public long TotalBytes => Count * (long)ValueBytes;

    /// <summary>Bytes of one value of a type, 0 where the type is unknown.</summary>
    /// <param name="type">The type as the file names it.</param>
    public static int BytesOf(TiffFieldType type) => type switch
    {
        TiffFieldType.Byte or TiffFieldType.Ascii or TiffFieldType.SByte or TiffFieldType.Undefined => 1,
        TiffFieldType.Short or TiffFieldType.SShort => 2,
        TiffFieldType.Long or TiffFieldType.SLong or TiffFieldType.Float or TiffFieldType.Ifd => 4,
        TiffFieldType.Rational or TiffFieldType.SRational or TiffFieldType.Double => 8,
        _ => 0,
    };
}
