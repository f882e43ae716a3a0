using OpenCvSharp;
using SensorLab.Frames;

namespace SensorLab.Imaging.OpenCv;

/// <summary>A picture decoded by OpenCV.</summary>
internal sealed class OpenCvPicture(Mat picture) : IDecodedPicture
{
    public JpegCodes Codes(PixelRectangle part)
    {
        using Mat seen = picture[new Rect(part.X, part.Y, part.Width, part.Height)];

        // OpenCV's order is blue, green, red.
        return new JpegCodes(Counts(seen, 2), Counts(seen, 1), Counts(seen, 0));
    }

    public MeanCodes Mean(PixelRectangle part)
    {
        using Mat seen = picture[new Rect(part.X, part.Y, part.Width, part.Height)];
        Scalar mean = Cv2.Mean(seen);
        return new MeanCodes(mean.Val2, mean.Val1, mean.Val0);
    }

    public void Dispose() => picture.Dispose();

    private static long[] Counts(Mat picture, int channel)
    {
        using var histogram = new Mat();
        Cv2.CalcHist([picture], [channel], null, histogram, 1, [JpegCodes.Codes], [new Rangef(0, JpegCodes.Codes)]);
        return [.. Enumerable.Range(0, JpegCodes.Codes).Select(code => (long)histogram.Get<float>(code))];
    }
}
