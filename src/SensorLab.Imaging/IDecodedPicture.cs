using SensorLab.Frames;

namespace SensorLab.Imaging;

/// <summary>A decoded picture of three channels of 8 bits.</summary>
internal interface IDecodedPicture : IDisposable
{
    /// <summary>Counts the codes of a part.</summary>
    /// <param name="part">The part, inside the picture, in its own pixels.</param>
    JpegCodes Codes(PixelRectangle part);

    /// <summary>The mean codes of a part.</summary>
    /// <param name="part">The part, inside the picture and not empty, in its own pixels.</param>
    MeanCodes Mean(PixelRectangle part);
}
