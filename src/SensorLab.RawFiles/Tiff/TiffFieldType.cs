namespace SensorLab.RawFiles.Tiff;

/// <summary>The types of a directory entry's values (TIFF 6.0, section 2; IFD from the TIFF Technical Notes).</summary>
internal enum TiffFieldType : ushort
{
    Byte = 1,
    Ascii = 2,
    Short = 3,
    Long = 4,
    Rational = 5,
    SByte = 6,
    Undefined = 7,
    SShort = 8,
    SLong = 9,
    SRational = 10,
    Float = 11,
    Double = 12,
    Ifd = 13,
}
