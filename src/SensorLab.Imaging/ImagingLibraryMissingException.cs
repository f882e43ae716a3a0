namespace SensorLab.Imaging;

/// <summary>The native library that pictures are drawn with is not here, or something that it needs is not.</summary>
public sealed class ImagingLibraryMissingException : Exception
{
    /// <summary>Creates the exception.</summary>
    public ImagingLibraryMissingException()
        : base("OpenCV, which draws pictures, cannot be loaded.")
    {
    }

    /// <summary>What the user can do.</summary>
    public string Remedy { get; } = OperatingSystem.IsLinux()
        ? "Install the library that it needs: apt-get install libgtk-3-0 (as root; on newer systems libgtk-3-0t64). Or leave the picture out."
        : "Install OpenCvSharp's runtime for this system, or leave the picture out.";
}
