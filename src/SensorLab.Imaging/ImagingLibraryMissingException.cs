namespace SensorLab.Imaging;

/// <summary>The native library that draws and decodes pictures is not here, or something that it needs is not.</summary>
public sealed class ImagingLibraryMissingException : Exception
{
    /// <summary>Creates the exception.</summary>
    public ImagingLibraryMissingException()
        : base("Neither OpenCV nor Skia, which draw and decode pictures, can be loaded.")
    {
    }

    /// <summary>How it is brought in.</summary>
    public static string InstallRemedy { get; } = OperatingSystem.IsLinux()
        ? "Install the library that it needs: apt-get install libgtk-3-0 (as root; on newer systems libgtk-3-0t64)."
        : "Install OpenCvSharp's runtime for this system.";

    /// <summary>What the user can do.</summary>
    public string Remedy { get; } = InstallRemedy + " Or leave the picture out.";
}
