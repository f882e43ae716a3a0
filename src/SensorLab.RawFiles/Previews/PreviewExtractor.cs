using System.Buffers.Binary;
using System.Runtime.InteropServices;
using SensorLab.Files;
using SensorLab.Frames;
using SensorLab.RawFiles.LibRaw;
using SensorLab.RawFiles.Tiff;

namespace SensorLab.RawFiles.Previews;

/// <summary>Finds the camera's own picture of a frame: the largest JPEG in the raw file, else the one beside it.</summary>
/// <remarks>
/// DNG 1.7 and TIFF 6.0: JPEG strips of directories that hold no sensor data, JPEGInterchangeFormat. Makers'
/// own places are looked up through LibRaw where it is installed; without it the standard places remain.
/// </remarks>
public static class PreviewExtractor
{
    /// <summary>A JPEG's frame header stands behind its application segments, which take 64 KB each.</summary>
    private const int HeaderBytes = 1 << 18;

    /// <summary>TIFF 6.0's first way to hold JPEG, which thumbnails still use.</summary>
    private const uint OldJpeg = 6;

    private const int RafHeaderBytes = 92;
    private const int RafJpegPointer = 84;
    private const int ThumbnailIsJpeg = 1;
    private const int ThumbnailLengthOffset = 12;
    private const int ThumbnailDataOffset = 16;

    private static readonly string[] Extensions = [".jpg", ".JPG", ".jpeg", ".JPEG"];

    /// <summary>Extracts the preview of a raw file.</summary>
    /// <param name="path">The raw file.</param>
    /// <returns>
    /// A JPEG file: of those embedded the one with the most pixels, else that of the same name beside the raw
    /// file; null where there is none. Only its header has been checked.
    /// </returns>
    /// <exception cref="IOException">A file cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">A file may not be read.</exception>
    public static byte[]? Extract(string path) => Embedded(path) ?? Beside(path);

    /// <summary>Finds the preview of a raw file, with its size and how it lies.</summary>
    /// <param name="path">The raw file.</param>
    /// <param name="isSensorWide">Whether the sensor is wider than high, as the frame's reader delivers it.</param>
    /// <returns>The preview that <see cref="Extract"/> gives; null where there is none.</returns>
    /// <exception cref="IOException">A file cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">A file may not be read.</exception>
    public static CameraPreview? Find(string path, bool isSensorWide) =>
        Extract(path) is { } jpeg && JpegSize.Read(jpeg) is { } size
            ? new CameraPreview(jpeg, size.Width, size.Height, PreviewTurn.Of(path, jpeg, size, isSensorWide))
            : null;

    private static byte[]? Embedded(string path)
    {
        LargestJpeg found = new();
        bool isDng = false;
        try
        {
            using RandomAccessFile file = RandomAccessFile.Open(path);
            byte[] header = RawFileScreen.Read(file, 0, RafHeaderBytes);
            if (RawFileScreen.IsTiff(header))
            {
                isDng = AddFromDirectories(file, found);
            }
            else if (header.AsSpan().StartsWith("FUJIFILMCCD-RAW "u8))
            {
                Add(file, found, Big(header, RafJpegPointer), Big(header, RafJpegPointer + 4));
            }

            if (!isDng)
            {
                RawFileScreen.Check(file);
                AddFromLibRaw(path, found);
            }
        }
        catch (Exception error) when (error is MalformedFileException or UnsupportedFileException)
        {
            // What was found before the damage stands; the frame's own reader tells of the damage.
        }

        return found.Jpeg;
    }

    private static bool AddFromDirectories(RandomAccessFile file, LargestJpeg found)
    {
        bool isDng = false;
        foreach (TiffDirectory directory in TiffReader.ReadSound(file).Images)
        {
            isDng |= directory.Has(TiffTag.DngVersion);
            Add(file, found, One(directory, TiffTag.JpegInterchangeFormat), One(directory, TiffTag.JpegInterchangeFormatLength));
            bool isJpeg = One(directory, TiffTag.Compression) is OldJpeg or TiffCompression.Jpeg;
            bool isSensorData = One(directory, TiffTag.PhotometricInterpretation) is TiffPhotometric.ColourFilterArray or TiffPhotometric.LinearRaw;
            if (isJpeg && !isSensorData)
            {
                Add(file, found, One(directory, TiffTag.StripOffsets), One(directory, TiffTag.StripByteCounts));
            }
        }

        return isDng;
    }

    private static uint One(TiffDirectory directory, ushort tag) => directory.SoundIntegers(tag, most: 1) is [uint value] ? value : 0;

    private static uint Big(byte[] header, int at) => BinaryPrimitives.ReadUInt32BigEndian(header.AsSpan(at));

    private static void Add(RandomAccessFile file, LargestJpeg found, uint offset, uint length)
    {
        if (offset > 0 && length is > 0 and <= LargestJpeg.LongestBytes && (long)offset + length <= file.Length)
        {
            byte[] start = RawFileScreen.Read(file, offset, (int)Math.Min(length, HeaderBytes));
            found.Offer(JpegSize.Read(start), () => RawFileScreen.Read(file, offset, (int)length));
        }
    }

    private static void AddFromLibRaw(string path, LargestJpeg found)
    {
        if (LibRawLibrary.Installed is not LibRawLibrary library)
        {
            return;
        }

        using LibRawHandle handle = library.Create();
        if (library.OpenFile(handle.Data, Path.GetFullPath(path)) != LibRawStatus.Success ||
            library.UnpackThumbnail(handle.Data) != LibRawStatus.Success)
        {
            return;
        }

        nint thumbnail = library.MakeThumbnail(handle.Data);
        if (thumbnail == 0)
        {
            return;
        }

        int length = Marshal.ReadInt32(thumbnail, ThumbnailLengthOffset);
        if (Marshal.ReadInt32(thumbnail) == ThumbnailIsJpeg && length is > 0 and <= LargestJpeg.LongestBytes)
        {
            byte[] jpeg = new byte[length];
            Marshal.Copy(thumbnail + ThumbnailDataOffset, jpeg, 0, length);
            found.Offer(JpegSize.Read(jpeg), () => jpeg);
        }

        library.ClearThumbnail(thumbnail);
    }

    private static byte[]? Beside(string path)
    {
        LargestJpeg found = new();
        foreach (string beside in Extensions.Select(extension => Path.ChangeExtension(path, extension)).Where(beside => beside != path))
        {
            if (PlainFile.IsPlain(beside) && new FileInfo(beside).Length <= LargestJpeg.LongestBytes)
            {
                byte[] jpeg = File.ReadAllBytes(beside);
                found.Offer(JpegSize.Read(jpeg), () => jpeg);
            }
        }

        return found.Jpeg;
    }
}
