using CsCheck;
using SensorLab.RawFiles.Tests.Support;

namespace SensorLab.RawFiles.Tests.Dng;

public sealed class DngRoundTripTests
{
    private static readonly Gen<TestDng> AnyDng =
        from width in Gen.Int[1, 90]
        from height in Gen.Int[1, 60]
        from bits in Gen.Int[8, 16]
        from isBigEndian in Gen.Bool
        from isBehindPreview in Gen.Bool
        from rowsPerStrip in Gen.Int[1, 70]
        from tileSide in Gen.Int[0, 3]
        from seed in Gen.Int
        select TestDng.Random(width, height, bits, seed) with
        {
            IsBigEndian = isBigEndian,
            IsBehindPreview = isBehindPreview,
            RowsPerStrip = rowsPerStrip,
            Tile = tileSide == 0 ? null : (16 * tileSide, 48 - (16 * (tileSide - 1))),
        };

    [Fact]
    public void ReadRows_AnyMosaic_GivesWhatWasWritten() =>
        Gen.Select(AnyDng, Gen.Int[1, 70]).Sample((dng, rowsAtOnce) => dng.Samples.AsSpan().SequenceEqual(Mosaics.ReadAll(dng, rowsAtOnce)), iter: 500);
}
