using SensorLab.Frames;
using SensorLab.Pixels.Defects;

namespace SensorLab.Pixels.Field;

/// <summary>Where a frame set is measured, in photosites from the active area's top left.</summary>
public sealed record MeasurementArea
{
    /// <summary>The spot meter's window as a share of the frame's width and height; a spot meter sees 1 to 5 % of the frame.</summary>
    public const double SpotShare = 1.0 / 8.0;

    private const int SmallestPlaneSide = 8;

    private MeasurementArea(PixelRectangle region, PixelRectangle spot)
    {
        Region = region;
        Spot = spot;
    }

    /// <summary>The region measured, whole cells of the colour filter array.</summary>
    public PixelRectangle Region { get; }

    /// <summary>Where the spot meter looks, whole cells of the colour filter array.</summary>
    public PixelRectangle Spot { get; }

    /// <summary>
    /// Light that the darkest part of the field lacks to the brightest, as a share, where a part of the field was left
    /// out for it; null where all of it is measured, or where the user named the region.
    /// </summary>
    public double? FieldMissing { get; init; }

    /// <summary>Lines of the region that are kept out: a neighbour stands in for each.</summary>
    public IReadOnlyList<DeadLine> DeadLines { get; init; } = [];

    /// <summary>The area of a frame.</summary>
    /// <param name="layout">The frame's geometry.</param>
    /// <param name="region">The region wanted; null for the whole active area.</param>
    /// <param name="spotCentre">Where the spot meter looks; null for the frame's centre.</param>
    /// <returns>The area, cut down to whole cells of the colour filter array.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The region or the spot lies outside the active area, or the region holds fewer than 8 × 8 repeats of the colour filter array.
    /// </exception>
    public static MeasurementArea Of(MosaicLayout layout, PixelRectangle? region = null, (int X, int Y)? spotCentre = null)
    {
        var active = new PixelRectangle(0, 0, layout.ActiveArea.Width, layout.ActiveArea.Height);
        ColourFilterArray array = layout.ColourFilterArray;
        PixelRectangle wanted = region ?? active;
        if (!active.Contains(wanted))
        {
            throw new ArgumentOutOfRangeException(nameof(region), wanted, $"The region lies outside the active area of {active.Width} × {active.Height} photosites.");
        }

        PixelRectangle aligned = Aligned(wanted, array);
        if (aligned.Width < SmallestPlaneSide * array.Columns || aligned.Height < SmallestPlaneSide * array.Rows)
        {
            throw new ArgumentOutOfRangeException(nameof(region), wanted, $"The region is smaller than {SmallestPlaneSide} × {SmallestPlaneSide} repeats of the colour filters, {SmallestPlaneSide * array.Columns} × {SmallestPlaneSide * array.Rows} photosites.");
        }

        if (spotCentre is { } centre && !(centre.X >= 0 && centre.Y >= 0 && centre.X < active.Width && centre.Y < active.Height))
        {
            throw new ArgumentOutOfRangeException(nameof(spotCentre), centre, $"The spot lies outside the active area of {active.Width} × {active.Height} photosites.");
        }

        return new MeasurementArea(aligned, Aligned(SpotOf(active.Width, active.Height, spotCentre, 2 * Math.Max(array.Rows, array.Columns)), array));
    }

    /// <summary>Where the spot meter is taken to look, before it is aligned with the mosaic.</summary>
    /// <param name="activeWidth">Columns of the active area.</param>
    /// <param name="activeHeight">Its rows.</param>
    /// <param name="centre">Its centre in photosites of the active area; null for the middle.</param>
    /// <param name="smallestSide">Photosites a side at the least.</param>
    /// <returns>The spot in photosites of the active area, all of it inside.</returns>
    public static PixelRectangle SpotOf(int activeWidth, int activeHeight, (int X, int Y)? centre, int smallestSide = 1)
    {
        (int x, int y) = centre ?? (activeWidth / 2, activeHeight / 2);
        int width = Math.Max((int)(activeWidth * SpotShare), smallestSide);
        int height = Math.Max((int)(activeHeight * SpotShare), smallestSide);
        return new PixelRectangle(Math.Clamp(x - (width / 2), 0, activeWidth - width), Math.Clamp(y - (height / 2), 0, activeHeight - height), width, height);
    }

    private static PixelRectangle Aligned(PixelRectangle rectangle, ColourFilterArray array)
    {
        int left = (rectangle.X + array.Columns - 1) / array.Columns * array.Columns;
        int top = (rectangle.Y + array.Rows - 1) / array.Rows * array.Rows;
        return new PixelRectangle(left, top, (rectangle.Right - left) / array.Columns * array.Columns, (rectangle.Bottom - top) / array.Rows * array.Rows);
    }
}
