namespace SensorLab.Reports;

/// <summary>The system has no font to write with; charts without words are not drawn.</summary>
public sealed class FontsMissingException : InvalidOperationException
{
    /// <summary>States what is missing and the remedy.</summary>
    public FontsMissingException()
        : base("No font was found on this system, so charts and sheets would have no text. Install one (on Debian and Ubuntu: apt-get install fonts-dejavu-core) and run the command again.")
    {
    }
}
