namespace SensorLab.RawFiles.LibRaw;

/// <summary>LibRaw's return codes that need telling apart; negative ones above −100000 leave the decoder usable.</summary>
/// <remarks>LibRaw API documentation, "Error codes", enum LibRaw_errors.</remarks>
internal enum LibRawStatus
{
    /// <summary>LIBRAW_SUCCESS.</summary>
    Success = 0,

    /// <summary>LIBRAW_FILE_UNSUPPORTED.</summary>
    FileUnsupported = -2,

    /// <summary>LIBRAW_NOT_IMPLEMENTED.</summary>
    NotImplemented = -7,

    /// <summary>LIBRAW_UNSUFFICIENT_MEMORY.</summary>
    InsufficientMemory = -100007,

    /// <summary>LIBRAW_DATA_ERROR.</summary>
    DataError = -100008,

    /// <summary>LIBRAW_IO_ERROR.</summary>
    InputError = -100009,
}
