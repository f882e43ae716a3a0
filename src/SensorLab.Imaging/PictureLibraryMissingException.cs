namespace SensorLab.Imaging;

/// <summary>The library that decodes pictures is not there: nothing is wrong with the picture.</summary>
public sealed class PictureLibraryMissingException : Exception
{
    /// <summary>What to do about it.</summary>
    public const string Remedy = "Install what it needs (Debian: apt-get install libgtk-3-0, or run src/install.sh), and run the command again.";

    /// <summary>The exception.</summary>
    /// <param name="cause">What loading it met.</param>
    public PictureLibraryMissingException(Exception cause)
        : base("The library that decodes JPEG pictures (OpenCV) cannot be loaded here.", cause)
    {
    }
}
