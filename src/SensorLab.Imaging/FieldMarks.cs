using OpenCvSharp;

namespace SensorLab.Imaging;

/// <summary>Draws the region measured and the spot into a picture: told apart by line and label as well as by colour.</summary>
internal sealed class FieldMarks(Mat picture)
{
    private const string RegionLabel = "measured";
    private const string SpotLabel = "spot meter";
    private const HersheyFonts Font = HersheyFonts.HersheySimplex;
    private const int Padding = 5;
    private const int DashPixels = 9;

    // Okabe and Ito's orange and sky blue, which the colour-blind tell apart; blue, green, red.
    private static readonly Scalar Orange = new(0, 159, 230);
    private static readonly Scalar SkyBlue = new(233, 180, 86);
    private static readonly Scalar Black = new(0, 0, 0);

    private readonly double _fontScale = Math.Max(0.5, picture.Width / 1400.0);

    /// <summary>Draws both, each with its label inside the picture and apart from the other.</summary>
    public void Draw(Rect region, Rect spot)
    {
        Rect inside = Inset(region);
        Outline(inside, Orange, dashed: false);
        Rect spotInside = Inset(spot);
        Outline(spotInside, SkyBlue, dashed: true);
        Rect spotLabel = LabelAt(SpotLabel, spotInside.X, spotInside.Bottom + 2);
        Rect regionLabel = LabelAt(RegionLabel, inside.X + 2, inside.Y + 2);
        if (Touches(regionLabel, spotLabel) || Touches(regionLabel, spotInside))
        {
            int height = regionLabel.Height;
            regionLabel = LabelAt(RegionLabel, inside.X + 2, inside.Bottom - height - 2);
        }

        Write(SpotLabel, spotLabel, SkyBlue);
        Write(RegionLabel, regionLabel, Orange);
    }

    /// <summary>A rectangle moved inside the picture so far that its line is seen whole.</summary>
    private Rect Inset(Rect rectangle)
    {
        int left = Math.Clamp(rectangle.Left, 2, picture.Width - 4);
        int top = Math.Clamp(rectangle.Top, 2, picture.Height - 4);
        int right = Math.Clamp(rectangle.Right, left + 1, picture.Width - 3);
        int bottom = Math.Clamp(rectangle.Bottom, top + 1, picture.Height - 3);
        return new Rect(left, top, right - left, bottom - top);
    }

    private void Outline(Rect rectangle, Scalar colour, bool dashed)
    {
        Point[] corners =
        [
            new(rectangle.Left, rectangle.Top), new(rectangle.Right, rectangle.Top),
            new(rectangle.Right, rectangle.Bottom), new(rectangle.Left, rectangle.Bottom),
        ];
        foreach ((Scalar ink, int thickness) in new[] { (Black, 4), (colour, 2) })
        {
            for (int i = 0; i < corners.Length; i++)
            {
                Side(corners[i], corners[(i + 1) % corners.Length], ink, thickness, dashed && thickness == 2);
            }
        }
    }

    private void Side(Point from, Point to, Scalar colour, int thickness, bool dashed)
    {
        int length = Math.Max(Math.Abs(to.X - from.X), Math.Abs(to.Y - from.Y));
        int step = dashed ? 2 * DashPixels : length + 1;
        for (int at = 0; at <= length; at += step)
        {
            int end = Math.Min(length, at + (dashed ? DashPixels : length));
            Cv2.Line(picture, Between(at), Between(end), colour, thickness);
        }

        Point Between(int at) => length == 0 ? from : new Point(from.X + ((to.X - from.X) * at / length), from.Y + ((to.Y - from.Y) * at / length));
    }

    private Rect LabelAt(string text, int x, int y)
    {
        Size size = Cv2.GetTextSize(text, Font, _fontScale, 1, out int baseline);
        int width = size.Width + (2 * Padding);
        int height = size.Height + baseline + (2 * Padding);
        return new Rect(Math.Clamp(x, 0, Math.Max(0, picture.Width - width)), Math.Clamp(y, 0, Math.Max(0, picture.Height - height)), width, height);
    }

    private void Write(string text, Rect label, Scalar colour)
    {
        Cv2.GetTextSize(text, Font, _fontScale, 1, out int baseline);
        Cv2.Rectangle(picture, label, Black, thickness: -1);
        Cv2.PutText(picture, text, new Point(label.X + Padding, label.Bottom - Padding - baseline), Font, _fontScale, colour, 1, LineTypes.AntiAlias);
    }

    private static bool Touches(Rect first, Rect second) =>
        first.Left < second.Right && second.Left < first.Right && first.Top < second.Bottom && second.Top < first.Bottom;
}
