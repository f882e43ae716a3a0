using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>Draws the region measured and the spot into a picture: told apart by line and label as well as by colour.</summary>
internal sealed class FieldMarks(IFieldCanvas picture)
{
    private const string RegionLabel = "measured";
    private const string SpotLabel = "spot meter";
    private const int Padding = 5;
    private const int DashPixels = 9;

    // Okabe and Ito's orange and sky blue, which the colour-blind tell apart.
    private static readonly MarkColour Orange = new(230, 159, 0);
    private static readonly MarkColour SkyBlue = new(86, 180, 233);
    private static readonly MarkColour Black = new(0, 0, 0);

    private readonly double _fontScale = Math.Max(0.5, picture.Width / 1400.0);

    /// <summary>Draws both, each with its label inside the picture and apart from the other.</summary>
    public void Draw(PixelRectangle region, PixelRectangle spot)
    {
        PixelRectangle inside = Inset(region);
        Outline(inside, Orange, dashed: false);
        PixelRectangle spotInside = Inset(spot);
        Outline(spotInside, SkyBlue, dashed: true);
        PixelRectangle spotLabel = LabelAt(SpotLabel, spotInside.X, spotInside.Bottom + 2);
        PixelRectangle regionLabel = LabelAt(RegionLabel, inside.X + 2, inside.Y + 2);
        if (Touches(regionLabel, spotLabel) || Touches(regionLabel, spotInside))
        {
            int height = regionLabel.Height;
            regionLabel = LabelAt(RegionLabel, inside.X + 2, inside.Bottom - height - 2);
        }

        Write(SpotLabel, spotLabel, SkyBlue);
        Write(RegionLabel, regionLabel, Orange);
    }

    /// <summary>A rectangle moved inside the picture so far that its line is seen whole.</summary>
    private PixelRectangle Inset(PixelRectangle rectangle)
    {
        int left = Math.Clamp(rectangle.X, 2, picture.Width - 4);
        int top = Math.Clamp(rectangle.Y, 2, picture.Height - 4);
        int right = Math.Clamp(rectangle.Right, left + 1, picture.Width - 3);
        int bottom = Math.Clamp(rectangle.Bottom, top + 1, picture.Height - 3);
        return new PixelRectangle(left, top, right - left, bottom - top);
    }

    private void Outline(PixelRectangle rectangle, MarkColour colour, bool dashed)
    {
        (int X, int Y)[] corners =
        [
            (rectangle.X, rectangle.Y), (rectangle.Right, rectangle.Y),
            (rectangle.Right, rectangle.Bottom), (rectangle.X, rectangle.Bottom),
        ];
        foreach ((MarkColour ink, int thickness) in new[] { (Black, 4), (colour, 2) })
        {
            for (int i = 0; i < corners.Length; i++)
            {
                Side(corners[i], corners[(i + 1) % corners.Length], ink, thickness, dashed && thickness == 2);
            }
        }
    }

    private void Side((int X, int Y) from, (int X, int Y) to, MarkColour colour, int thickness, bool dashed)
    {
        int length = Math.Max(Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y));
        int step = dashed ? 2 * DashPixels : length + 1;
        for (int at = 0; at <= length; at += step)
        {
            int end = Math.Min(length, at + (dashed ? DashPixels : length));
            picture.Line(Between(at), Between(end), colour, thickness);
        }

        (int X, int Y) Between(int at) => length == 0 ? from : (from.X + ((to.X - from.X) * at / length), from.Y + ((to.Y - from.Y) * at / length));
    }

    private PixelRectangle LabelAt(string text, int x, int y)
    {
        (int textWidth, int ascent, int descent) = picture.SizeOf(text, _fontScale);
        int width = textWidth + (2 * Padding);
        int height = ascent + descent + (2 * Padding);
        return new PixelRectangle(Math.Clamp(x, 0, Math.Max(0, picture.Width - width)), Math.Clamp(y, 0, Math.Max(0, picture.Height - height)), width, height);
    }

    private void Write(string text, PixelRectangle label, MarkColour colour)
    {
        int descent = picture.SizeOf(text, _fontScale).Descent;
        picture.Fill(label, Black);
        picture.Write(text, _fontScale, (label.X + Padding, label.Bottom - Padding - descent), colour);
    }

    private static bool Touches(PixelRectangle first, PixelRectangle second) =>
        first.X < second.Right && second.X < first.Right && first.Y < second.Bottom && second.Y < first.Bottom;
}
