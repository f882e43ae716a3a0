using CsCheck;
using SensorLab.Frames;
using SensorLab.RawFiles.Dng;
using SensorLab.RawFiles.Tests.Support;
using SensorLab.Simulation.Writing;

namespace SensorLab.RawFiles.Tests.Dng;

/// <summary>What the simulator's writer and encoder write, the reader gives back: any image in any form.</summary>
public sealed class RehearsedRoundTripTests
{
    private static readonly Gen<LosslessJpegForm> AnyLossless =
        from predictor in Gen.Int[1, 7]
        from componentsLog2 in Gen.Int[0, 2]
        from hasOneTable in Gen.Bool
        from restartRows in Gen.Int[0, 20]
        select new LosslessJpegForm { Predictor = predictor, Components = 1 << componentsLog2, HasOneTable = hasOneTable, RestartRows = restartRows == 0 ? null : restartRows };

    private static readonly Gen<DngOptions> AnyForm =
        from compression in Gen.Enum<DngCompression>()
        from lossless in AnyLossless
        from isBigEndian in Gen.Bool
        from isBehindPreview in Gen.Bool
        from rowsPerStrip in Gen.Int[0, 50]
        from tile in Gen.Int[0, 3]
        select new DngOptions
        {
            Compression = compression,
            LosslessJpeg = lossless,
            IsBigEndian = isBigEndian,
            IsBehindPreview = isBehindPreview,
            RowsPerStrip = rowsPerStrip == 0 ? null : rowsPerStrip,
            Tile = tile == 0 ? null : (16 * tile, 64 - (16 * tile)),
        };

    /// <summary>A multiple of four columns, which all numbers of components divide; rough noise, smooth steps and flat images.</summary>
    private static readonly Gen<(int Width, int Height, int Bits, int Spread, int Seed)> AnyImage =
        Gen.Select(Gen.Int[4, 24], Gen.Int[4, 60], Gen.Int[8, 16], Gen.Int[0, 16], Gen.Int);

    [Fact]
    public void ReadRows_AnyImageInAnyForm_GivesWhatWasWritten() => Gen.Select(AnyImage, AnyForm).Sample(
        (image, form) =>
        {
            int width = 4 * image.Width;
            ushort[] codes = CodesOf(width, image.Height, image.Bits, Math.Min(image.Spread, image.Bits), image.Seed);
            var frame = new RawFrame
            {
                Metadata = new FrameMetadata { Mode = new RecordingMode(image.Bits) },
                Layout = new MosaicLayout
                {
                    WidthPixels = width,
                    HeightPixels = image.Height,
                    ActiveArea = new PixelRectangle(0, 0, width, image.Height),
                    ColourFilterArray = ColourFilterArray.Monochrome,
                    BitDepth = image.Bits,
                },
            };
            using var file = new TemporaryFile(DngWriter.Encode(frame, codes, form));
            using DngMosaicReader reader = DngMosaicReader.Open(file.Path);
            return codes.AsSpan().SequenceEqual(Mosaics.ReadAll(reader));
        },
        iter: 500);

    private static ushort[] CodesOf(int width, int height, int bits, int spread, int seed)
    {
        var random = new Random(seed);
        int mask = (1 << bits) - 1;
        return [.. Enumerable.Range(0, width * height).Select(i => (ushort)(((i % width) + random.Next(1 << spread)) & mask))];
    }
}
