using System.Runtime.InteropServices;
using OpenCvSharp;

namespace SensorLab.Imaging;

/// <summary>The native library behind this project.</summary>
internal static class ImagingLibrary
{
    private const string NativeName = "OpenCvSharpExtern";

    /// <summary>Requires the native library.</summary>
    /// <exception cref="ImagingLibraryMissingException">It, or something that it needs, cannot be loaded.</exception>
    public static void Require()
    {
        // Tried by hand: OpenCvSharp itself would tell of a failure on standard output.
        if (!NativeLibrary.TryLoad(NativeName, typeof(Mat).Assembly, null, out _))
        {
            throw new ImagingLibraryMissingException();
        }
    }
}
