using System.Runtime.InteropServices;
using OpenCvSharp;

namespace SensorLab.Imaging.OpenCv;

/// <summary>Pictures by OpenCV.</summary>
internal sealed class OpenCvLibrary : IPictureLibrary
{
    private const string NativeName = "OpenCvSharpExtern";

    // Debian's. The package's library exports a libjpeg of its own under the same names, and brings the system's along: that one
    // would call into the other, whose structures differ, and LibRaw with it, which ends the process. Loaded before, it keeps to itself.
    private const string SystemJpegName = "libjpeg.so.62";

    /// <summary>Whether the native library, and all that it needs, can be loaded.</summary>
    /// <remarks>Tried by hand: OpenCvSharp itself would tell of a failure on standard output.</remarks>
    public static bool CanLoad()
    {
        if (OperatingSystem.IsLinux())
        {
            _ = NativeLibrary.TryLoad(SystemJpegName, out _);
        }

        return NativeLibrary.TryLoad(NativeName, typeof(Mat).Assembly, DllImportSearchPath.AssemblyDirectory | DllImportSearchPath.SafeDirectories, out _);
    }

    public IDecodedPicture? Decode(byte[] jpeg, int widthPixels, int heightPixels, int reduction)
    {
        ImreadModes mode = reduction switch
        {
            8 => ImreadModes.ReducedColor8,
            4 => ImreadModes.ReducedColor4,
            2 => ImreadModes.ReducedColor2,
            _ => ImreadModes.Color,
        };
        try
        {
            Mat picture = Cv2.ImDecode(jpeg, mode | ImreadModes.IgnoreOrientation);
            if (picture.Cols == (widthPixels + reduction - 1) / reduction && picture.Rows == (heightPixels + reduction - 1) / reduction)
            {
                return new OpenCvPicture(picture);
            }

            picture.Dispose();
            return null;
        }
        catch (OpenCVException)
        {
            return null;
        }
    }

    public IFieldCanvas Canvas(int widthCells, int heightCells, byte[] greys, int factor) => new OpenCvCanvas(widthCells, heightCells, greys, factor);
}
