using SensorLab.Debrief;
using SensorLab.Frames;
using SensorLab.Imaging;
using SensorLab.Measurement.Previews;
using SensorLab.Profiles;
using SensorLab.RawFiles.Previews;

namespace SensorLab.Debriefs;

/// <summary>Reads a frame's preview over a grid on the frame.</summary>
internal static class PreviewReader
{
    /// <summary>Parts along the longer side at most.</summary>
    private const int MostParts = 96;

    /// <summary>Pixels of the preview a side of a part, at the least: the smallest that a region keeps, and its edges.</summary>
    private const int PixelsInPart = 6;

    /// <summary>Reads it.</summary>
    /// <param name="path">The raw file.</param>
    /// <param name="frame">The frame.</param>
    /// <param name="found">Is told why there is none.</param>
    /// <returns>Null where there is none, or none that decodes.</returns>
    public static PreviewTones? Read(string path, RawFrame frame, Action<Finding> found)
    {
        PixelRectangle active = frame.Layout.ActiveArea;
        try
        {
            if (PreviewExtractor.Find(path, active.Width >= active.Height) is not { } preview)
            {
                found(Missing("The file has no preview: what the camera showed is not known."));
                return null;
            }

            int longest = Math.Max(preview.WidthPixels, preview.HeightPixels) / PixelsInPart;
            double scale = (double)Math.Clamp(longest, 1, MostParts) / Math.Max(active.Width, active.Height);
            int columns = Math.Max(1, (int)(active.Width * scale));
            int rows = Math.Max(1, (int)(active.Height * scale));
            PixelRectangle?[] parts = [.. Enumerable.Range(0, columns * rows).Select(i =>
            {
                (int left, int right) = (i % columns * active.Width / columns, ((i % columns) + 1) * active.Width / columns);
                (int top, int bottom) = (i / columns * active.Height / rows, ((i / columns) + 1) * active.Height / rows);
                return PreviewRegion.Of(
                    new PixelRectangle(left, top, right - left, bottom - top), active.Width, active.Height, preview.WidthPixels, preview.HeightPixels, preview.QuarterTurns);
            })];
            IReadOnlyList<MeanCodes?> means = JpegMeans.Of(preview.Jpeg, preview.WidthPixels, preview.HeightPixels, parts);
            return new PreviewTones(columns, rows, [.. means.Select(m => m?.Highest)]);
        }
        catch (ImagingLibraryMissingException e)
        {
            found(Missing(e.Message));
        }
        catch (MalformedFileException e)
        {
            found(Missing($"The preview cannot be read: {e.Message}"));
        }

        return null;
    }

    private static Finding Missing(string message) => new()
    {
        Code = FindingCode.PreviewMissing,
        Severity = FindingSeverity.Note,
        Message = message,
        Remedy = "Nothing is lost of the raw file; whether the preview showed the truth is left open.",
    };
}
