using OpenCvSharp;
using SensorLab.Frames;

namespace SensorLab.Imaging.OpenCv;

/// <summary>A picture drawn by OpenCV.</summary>
internal sealed class OpenCvCanvas : IFieldCanvas
{
    private const HersheyFonts Font = HersheyFonts.HersheySimplex;

    private readonly Mat _picture = new();

    public OpenCvCanvas(int widthCells, int heightCells, byte[] greys, int factor)
    {
        using Mat grey = Mat.FromPixelData(heightCells, widthCells, MatType.CV_8UC1, greys);
        using var enlarged = new Mat();
        Cv2.Resize(grey, enlarged, new Size(widthCells * factor, heightCells * factor), 0, 0, InterpolationFlags.Nearest);
        Cv2.CvtColor(enlarged, _picture, ColorConversionCodes.GRAY2BGR);
    }

    public int Width => _picture.Width;

    public int Height => _picture.Height;

    public void Line((int X, int Y) from, (int X, int Y) to, MarkColour colour, int thickness) =>
        Cv2.Line(_picture, new Point(from.X, from.Y), new Point(to.X, to.Y), Ink(colour), thickness);

    public void Fill(PixelRectangle rectangle, MarkColour colour) =>
        Cv2.Rectangle(_picture, new Rect(rectangle.X, rectangle.Y, rectangle.Width, rectangle.Height), Ink(colour), thickness: -1);

    public (int Width, int Ascent, int Descent) SizeOf(string text, double scale)
    {
        Size size = Cv2.GetTextSize(text, Font, scale, 1, out int baseline);
        return (size.Width, size.Height, baseline);
    }

    public void Write(string text, double scale, (int X, int Y) start, MarkColour colour) =>
        Cv2.PutText(_picture, text, new Point(start.X, start.Y), Font, scale, Ink(colour), 1, LineTypes.AntiAlias);

    public byte[] Png()
    {
        Cv2.ImEncode(".png", _picture, out byte[] png);
        return png;
    }

    public void Dispose() => _picture.Dispose();

    private static Scalar Ink(MarkColour colour) => new(colour.Blue, colour.Green, colour.Red);
}
