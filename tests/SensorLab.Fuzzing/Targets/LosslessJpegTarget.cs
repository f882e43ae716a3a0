using System.IO.Hashing;
using System.Runtime.InteropServices;
using SensorLab.RawFiles;
using SensorLab.RawFiles.LosslessJpeg;

namespace SensorLab.Fuzzing.Targets;

/// <summary>The lossless-JPEG decoder alone, without a directory around the image.</summary>
internal sealed class LosslessJpegTarget : FuzzTarget
{
    /// <inheritdoc/>
    public override string Name => "jpeg";

    /// <inheritdoc/>
    protected override long Decode(string path, XxHash3 pixels)
    {
        using RandomAccessFile file = RandomAccessFile.Open(path);
        using var decoder = new LosslessJpegDecoder(file);
        LosslessJpegHeader header = decoder.Start(0, file.Length);
        for (int line = 0; line < header.Lines; line++)
        {
            pixels.Append(MemoryMarshal.AsBytes(decoder.ReadLine()));
        }

        return (long)header.LineLength * header.Lines;
    }
}
