using System.Buffers.Binary;
using BitMiracle.LibTiff.Classic;
using LibTiff = BitMiracle.LibTiff.Classic.Tiff;
using LibTiffTag = BitMiracle.LibTiff.Classic.TiffTag;

namespace SensorLab.RawFiles.Tests.Support;

/// <summary>Decodes 8- and 16-bit images by LibTiff.NET, an independent reader.</summary>
internal static class TiffOracle
{
    public static ushort[] ReadAll(string path, int width, int height)
    {
        _ = LibTiff.SetErrorHandler(new Quiet());
        using LibTiff tiff = LibTiff.Open(path, "r");
        if (tiff.GetField(LibTiffTag.SUBIFD) is { } subIfd)
        {
            Assert.True(tiff.SetSubDirectory((long)((ulong[])subIfd[1].Value)[0]));
        }

        int bytesPerSample = tiff.GetField(LibTiffTag.BITSPERSAMPLE)[0].ToInt() / 8;
        int segmentWidth = tiff.IsTiled() ? tiff.GetField(LibTiffTag.TILEWIDTH)[0].ToInt() : width;
        int segmentHeight = tiff.IsTiled() ? tiff.GetField(LibTiffTag.TILELENGTH)[0].ToInt() : tiff.GetField(LibTiffTag.ROWSPERSTRIP)[0].ToInt();
        int across = (width + segmentWidth - 1) / segmentWidth;
        var samples = new ushort[width * height];
        var buffer = new byte[segmentWidth * segmentHeight * bytesPerSample];
        int count = tiff.IsTiled() ? tiff.NumberOfTiles() : tiff.NumberOfStrips();
        for (int index = 0; index < count; index++)
        {
            int read = tiff.IsTiled()
                ? tiff.ReadEncodedTile(index, buffer, 0, buffer.Length)
                : tiff.ReadEncodedStrip(index, buffer, 0, -1);
            Assert.True(read > 0);
            int left = index % across * segmentWidth;
            int top = index / across * segmentHeight;
            for (int row = 0; row < segmentHeight && top + row < height; row++)
            {
                for (int column = 0; column < segmentWidth && left + column < width; column++)
                {
                    int at = ((row * segmentWidth) + column) * bytesPerSample;
                    samples[((top + row) * width) + left + column] = bytesPerSample == 1
                        ? buffer[at]
                        : BinaryPrimitives.ReadUInt16LittleEndian(buffer.AsSpan(at));
                }
            }
        }

        return samples;
    }

    /// <summary>Tags of raw files are unknown to LibTiff, and it says so for each.</summary>
    private sealed class Quiet : TiffErrorHandler
    {
        public override void WarningHandler(LibTiff tif, string method, string format, params object[] args)
        {
            // What it decodes is compared; what it thinks of the tags does not matter.
        }
    }
}
