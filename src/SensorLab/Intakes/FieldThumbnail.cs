using SensorLab.Frames;
using SensorLab.Imaging;
using SensorLab.Profiles;
using SensorLab.RawFiles;

namespace SensorLab.Intakes;

/// <summary>A picture of the field of an intake, with the region measured and the spot drawn.</summary>
public static class FieldThumbnail
{
    /// <summary>Requires what the picture is drawn with, before long work begins.</summary>
    /// <exception cref="ImagingLibraryMissingException">The native library is not here.</exception>
    public static void RequireLibrary() => FieldPicture.RequireLibrary();

    /// <summary>Draws the picture.</summary>
    /// <param name="framesFolder">The frame set's folder.</param>
    /// <param name="report">Its intake, with a region measured.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <returns>A PNG file's bytes.</returns>
    /// <exception cref="ArgumentException">The report has no measured region.</exception>
    /// <exception cref="ImagingLibraryMissingException">The native library is not here.</exception>
    /// <exception cref="MalformedFileException">The frame's data are damaged.</exception>
    /// <exception cref="IOException">The frame cannot be read.</exception>
    public static byte[] Png(string framesFolder, IntakeReport report, CancellationToken cancellation = default)
    {
        if (report is not { FieldFrame: { } file, Region: { } region, Spot: { } spot })
        {
            throw new ArgumentException("An intake that measured nothing has no field to show.", nameof(report));
        }

        using IMosaicReader reader = RawFileOpener.Open(Path.Combine(framesFolder, file));
        return FieldPicture.Png(reader, ToRectangle(region), ToRectangle(spot), cancellation);
    }

    private static PixelRectangle ToRectangle(MeasuredRegion r) => new(r.X, r.Y, r.Width, r.Height);
}
