using System.Runtime.InteropServices;
using SkiaSharp;

namespace SensorLab.Imaging.Skia;

/// <summary>Pictures by Skia, which every system has: it draws the charts, too.</summary>
internal sealed class SkiaLibrary : IPictureLibrary
{
    private const string NativeName = "libSkiaSharp";

    /// <summary>Whether the native library can be loaded.</summary>
    public static bool CanLoad() =>
        NativeLibrary.TryLoad(NativeName, typeof(SKBitmap).Assembly, DllImportSearchPath.AssemblyDirectory | DllImportSearchPath.SafeDirectories, out _);

    public IDecodedPicture? Decode(byte[] jpeg, int widthPixels, int heightPixels, int reduction)
    {
        SKImageInfo stored = SKBitmap.DecodeBounds(jpeg);
        if (stored.Width != widthPixels || stored.Height != heightPixels)
        {
            return null;
        }

        using SKData data = SKData.CreateCopy(jpeg);
        using SKCodec codec = SKCodec.Create(data);

        // Without a colour space in the target the codes stay as stored.
        SKSizeI size = codec.GetScaledDimensions(1f / reduction);
        var form = new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        bool isReduced = size.Width == (widthPixels + reduction - 1) / reduction && size.Height == (heightPixels + reduction - 1) / reduction;
        return isReduced && SKBitmap.Decode(codec, form) is { } picture ? new SkiaPicture(picture) : null;
    }

    public IFieldCanvas Canvas(int widthCells, int heightCells, byte[] greys, int factor) => new SkiaCanvas(widthCells, heightCells, greys, factor);
}
