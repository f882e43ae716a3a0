using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.LibRaw;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles;

/// <summary>Opens raw files of any kind: DNG by SensorLab's own reader, makers' formats by LibRaw.</summary>
public static class RawFileOpener
{
    private static readonly HashSet<string> RawSuffixes = new(StringComparer.OrdinalIgnoreCase)
    {
        ".3fr", ".ari", ".arw", ".bay", ".cap", ".cr2", ".cr3", ".crw", ".dcr", ".dng", ".erf", ".fff", ".gpr", ".iiq",
        ".k25", ".kdc", ".mef", ".mos", ".mrw", ".nef", ".nrw", ".orf", ".pef", ".ptx", ".raf", ".raw", ".rw2", ".rwl",
        ".sr2", ".srf", ".srw", ".x3f",
    };

    /// <summary>Whether a file's name ends as a raw file's does; its content is not looked at.</summary>
    /// <param name="path">The file.</param>
    public static bool IsRawFile(string path) => RawSuffixes.Contains(Path.GetExtension(path));

    /// <summary>Opens a raw file by its content, whatever its name.</summary>
    /// <param name="path">The file.</param>
    /// <returns>A reader at the first row; the caller disposes it.</returns>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read, or is a folder.</exception>
    /// <exception cref="MalformedFileException">The file is truncated, damaged or hostile.</exception>
    /// <exception cref="UnsupportedFileException">The file holds no sensor data, or cannot be decoded here.</exception>
    public static IMosaicReader Open(string path) => IsDng(path) ? DngMosaicReader.Open(path) : LibRawMosaicReader.Open(path);

    /// <summary>Opens a raw file once more.</summary>
    /// <param name="path">The file.</param>
    /// <param name="known">The frame, as an earlier opening gave it: its metadata are not read again where that takes time.</param>
    /// <returns>A reader at the first row; the caller disposes it.</returns>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read, or is a folder.</exception>
    /// <exception cref="MalformedFileException">The file is truncated, damaged or hostile.</exception>
    /// <exception cref="UnsupportedFileException">The file holds no sensor data, or cannot be decoded here.</exception>
    public static IMosaicReader Reopen(string path, RawFrame known) =>
        IsDng(path) ? DngMosaicReader.Open(path, known.Metadata) : LibRawMosaicReader.Open(path);

    /// <summary>Opens a raw file once more, to measure it and to hash it in one reading.</summary>
    /// <param name="path">The file.</param>
    /// <param name="known">The frame, as an earlier opening gave it: its metadata are not read again where that takes time.</param>
    /// <returns>A reader at the first row; the caller disposes it.</returns>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read, or is a folder.</exception>
    /// <exception cref="MalformedFileException">The file is truncated, damaged or hostile.</exception>
    /// <exception cref="UnsupportedFileException">The file holds no sensor data, or cannot be decoded here.</exception>
    public static HashedMosaicReader OpenHashed(string path, RawFrame known)
    {
        if (IsDng(path))
        {
            return DngMosaicReader.OpenHashed(path, known.Metadata);
        }

        IMosaicReader mosaic = LibRawMosaicReader.Open(path);
        try
        {
            return new HashedMosaicReader(mosaic, RandomAccessFile.Open(path));
        }
        catch
        {
            mosaic.Dispose();
            throw;
        }
    }

    /// <summary>A key of a file's pixel bytes, to order frames by what they hold and not by their names.</summary>
    /// <param name="path">The file.</param>
    /// <returns>A hash of samples of the image data: equal frames have equal keys; different ones nearly always differ.</returns>
    /// <exception cref="IOException">The file is not there or cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The file may not be read, or is a folder.</exception>
    /// <exception cref="MalformedFileException">A DNG's directories are damaged.</exception>
    /// <exception cref="UnsupportedFileException">A DNG holds no raw image.</exception>
    public static ulong ContentKeyOf(string path)
    {
        using RandomAccessFile file = RandomAccessFile.Open(path);
        return DngDirectoriesOf(file, path) is TiffReader tiff
            ? ContentKey.Of(file, SegmentLayout.Read(file, DngRawImage.Find(tiff)).Places)
            : ContentKey.Of(file, [(0, file.Length)]);
    }

    private static bool IsDng(string path)
    {
        using RandomAccessFile file = RandomAccessFile.Open(path);
        return DngDirectoriesOf(file, path) is not null;
    }

    /// <summary>A file's directories if it is a DNG. Makers bend TIFF in ways that are their decoder's business.</summary>
    private static TiffReader? DngDirectoriesOf(RandomAccessFile file, string path)
    {
        if (!TiffReader.IsTiff(file))
        {
            return null;
        }

        try
        {
            TiffReader tiff = TiffReader.Read(file);
            return IsDng(tiff, path) ? tiff : null;
        }
        catch (MalformedFileException) when (!IsPlainName(path))
        {
            return null;
        }
    }

    /// <summary>
    /// A DNG says so itself. Plain TIFF files with a raw image count as one only where their name does not say that a
    /// maker wrote them: makers' files look alike, but order or scale their photosites in ways of their own.
    /// </summary>
    private static bool IsDng(TiffReader tiff, string path) =>
        tiff.First.Has(TiffTag.DngVersion) || (IsPlainName(path) && tiff.Images.Any(DngRawImage.IsRaw));

    private static bool IsPlainName(string path) =>
        Path.GetExtension(path).ToUpperInvariant() is ".DNG" or ".TIF" or ".TIFF";
}
