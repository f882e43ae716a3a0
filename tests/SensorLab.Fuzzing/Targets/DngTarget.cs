using System.IO.Hashing;
using System.Runtime.InteropServices;
using SensorLab.Frames;
using SensorLab.RawFiles;
using SensorLab.RawFiles.Dng;

namespace SensorLab.Fuzzing.Targets;

/// <summary>The DNG reader, metadata and content key included.</summary>
internal sealed class DngTarget : FuzzTarget
{
    /// <inheritdoc/>
    public override string Name => "dng";

    /// <inheritdoc/>
    protected override long Decode(string path, XxHash3 pixels)
    {
        using DngMosaicReader reader = DngMosaicReader.Open(path);
        MosaicLayout layout = reader.Frame.Layout;
        var row = new ushort[layout.WidthPixels];
        for (int i = 0; i < layout.HeightPixels; i++)
        {
            reader.ReadRows(row);
            pixels.Append(MemoryMarshal.AsBytes(row.AsSpan()));
        }

        _ = RawFileOpener.ContentKeyOf(path);
        return (long)layout.WidthPixels * layout.HeightPixels;
    }
}
