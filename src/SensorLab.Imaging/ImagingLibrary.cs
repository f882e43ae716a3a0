using SensorLab.Imaging.OpenCv;
using SensorLab.Imaging.Skia;

namespace SensorLab.Imaging;

/// <summary>The native library that serves here: OpenCV, and Skia where it cannot be loaded.</summary>
internal static class ImagingLibrary
{
    private static readonly Lazy<IPictureLibrary?> Found = new(() =>
        OpenCvLibrary.CanLoad() ? new OpenCvLibrary()
        : SkiaLibrary.CanLoad() ? new SkiaLibrary()
        : null);

    /// <summary>Requires a library.</summary>
    /// <exception cref="ImagingLibraryMissingException">None can be loaded.</exception>
    public static IPictureLibrary Require() => Found.Value ?? throw new ImagingLibraryMissingException();
}
