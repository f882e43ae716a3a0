using SensorLab.Frames;

namespace SensorLab.RawFiles.LibRaw;

/// <summary>Why a file is not read through LibRaw, and what the user can do.</summary>
internal static class LibRawRefusal
{
    private const string ConvertRemedy =
        "Convert it to DNG with a program that knows the body, mosaic kept and compression lossless, and use the DNG; a body is often newer than the installed LibRaw.";

    private const string OtherFileRemedy = "Shoot the set in the body's full-size, uncompressed or losslessly compressed raw format.";

    private static readonly string InstallRemedy = OperatingSystem.IsLinux()
        ? "Install it, on Debian with: apt-get install libraw20. Or convert the files to DNG, which needs no library."
        : "Install it (libraw_r, 0.20 or newer; on Debian: apt-get install libraw20). Or convert the files to DNG, which needs no library.";

    /// <summary>No usable library.</summary>
    public static UnsupportedFileException LibraryMissing() =>
        new("A maker's raw format is read by LibRaw (0.20 or newer), and none is installed here.", InstallRemedy, isUnsuitable: false);

    /// <summary>The header is none that a raw format has.</summary>
    public static UnsupportedFileException UnknownFormat() =>
        new("The file does not begin as any of the raw formats that SensorLab knows.", ConvertRemedy, isUnsuitable: false);

    /// <summary>LibRaw knows no way to decode it.</summary>
    public static UnsupportedFileException NotDecoded() =>
        new("The installed LibRaw cannot decode this file.", ConvertRemedy, isUnsuitable: false);

    /// <summary>Decodes, but is no sensor data.</summary>
    public static UnsupportedFileException Unsuitable(string reason) => new(reason, OtherFileRemedy, isUnsuitable: true);

    /// <summary>Sensor data of a kind whose channels are not supported; a conversion would not change it.</summary>
    public static UnsupportedFileException UnsuitableMosaic(string reason) =>
        new(reason, "From this format SensorLab measures red, green and blue in patterns of 2×2 and 6×6, and monochrome; of other patterns a DNG, if your converter writes the sensor's own data, says more.", isUnsuitable: true);

    /// <summary>Maps a failed call.</summary>
    /// <param name="status">What LibRaw returned, not success.</param>
    public static Exception From(LibRawStatus status) => status switch
    {
        LibRawStatus.FileUnsupported or LibRawStatus.NotImplemented => NotDecoded(),
        LibRawStatus.InsufficientMemory => new InsufficientMemoryException("There is not enough memory to decode the file."),
        LibRawStatus.InputError => new MalformedFileException("The file ends before its picture data do."),
        LibRawStatus.DataError => new MalformedFileException("The picture data are damaged."),
        _ => new MalformedFileException($"LibRaw finds the file damaged (code {(int)status})."),
    };
}
