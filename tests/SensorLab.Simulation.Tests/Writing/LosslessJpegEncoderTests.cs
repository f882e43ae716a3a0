using CsCheck;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Tests.Writing;

public sealed class LosslessJpegEncoderTests
{
    private static readonly Gen<(ushort[] Samples, int Width, int Bits, LosslessJpegForm Form)> Images =
        from bits in Gen.Int[2, 16]
        from doublings in Gen.Int[0, 2]
        let components = 1 << doublings
        from columns in Gen.Int[1, 9]
        from rows in Gen.Int[1, 9]
        from predictor in Gen.Int[1, 7]
        from oneTable in Gen.Bool
        from restart in Gen.Int[0, 3]
        from samples in Gen.UShort[0, (ushort)((1 << bits) - 1)].Array[columns * components * rows]
        select (samples, columns * components, bits, new LosslessJpegForm
        {
            Predictor = predictor,
            Components = components,
            HasOneTable = oneTable,
            RestartRows = restart == 0 ? null : restart,
        });

    [Fact]
    public void Encode_AnyImage_DecodesToItself() => Images.Sample(
        image =>
        {
            MinimalLosslessJpeg decoded = MinimalLosslessJpeg.Decode(LosslessJpegEncoder.Encode(image.Samples, image.Width, image.Bits, image.Form));
            return decoded.Samples.AsSpan().SequenceEqual(image.Samples)
                && decoded.Precision == image.Bits
                && decoded.Predictor == image.Form.Predictor
                && decoded.Components == image.Form.Components
                && decoded.TableCount == (image.Form.HasOneTable ? 1 : image.Form.Components);
        },
        iter: 2000);

    [Fact]
    public void Encode_HalfTheRangeApart_UsesTheSixteenthClass()
    {
        ushort[] samples = [0, 32_768, 0, 65_535, 32_767, 65_535];
        var form = new LosslessJpegForm { Components = 1 };
        Assert.Equal(samples, MinimalLosslessJpeg.Decode(LosslessJpegEncoder.Encode(samples, 6, 16, form)).Samples);
    }

    [Fact]
    public void HuffmanTable_CountsLikeFibonacci_KeepsCodesWithinSixteenBits()
    {
        // Counts that grow like Fibonacci's make the longest codes there are: 17 bits for 17 classes and the reserved one.
        var counts = new long[17];
        counts[0] = 1;
        counts[1] = 2;
        for (int i = 2; i < 17; i++)
        {
            counts[i] = counts[i - 1] + counts[i - 2];
        }

        HuffmanTable table = HuffmanTable.For(counts);
        Assert.All(table.Length, length => Assert.InRange(length, 1, 16));
        double kraft = table.Length.Sum(length => Math.Pow(2, -length));
        Assert.True(kraft < 1, "One code is kept free.");
    }

    [Fact]
    public void HuffmanTable_FourEqualClasses_TakesTwoBitsWhereTheReservedCodeAllows()
    {
        var counts = new long[17];
        counts[3] = counts[4] = counts[5] = counts[6] = 1000;
        HuffmanTable table = HuffmanTable.For(counts);
        Assert.Equal([2, 2, 2, 3], new[] { table.Length[3], table.Length[4], table.Length[5], table.Length[6] }.Order());
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    public void DngWriter_LosslessTiles_AreSmallerAndHoldTheSamples(int predictor)
    {
        var body = new VirtualBody { WidthPixels = 96, HeightPixels = 64 };
        RehearsalPlan plan = RehearsalPlan.Of(new RehearsalOptions { Body = body, IsoValues = [100] });
        PlannedFrame planned = plan.Frames[^30];
        ushort[] codes = plan.Expose(planned);
        var options = new DngOptions { Tile = (48, 32), Compression = DngCompression.Lossless, LosslessJpeg = new LosslessJpegForm { Predictor = predictor } };
        var dng = new MinimalDng(DngWriter.Encode(planned.Raw, codes, options));
        Assert.Equal([7], dng.Raw[259]);
        IReadOnlyList<byte[]> blocks = dng.Blocks();
        Assert.True(blocks.Sum(block => block.Length) < codes.Length * 3 / 2);
        for (int i = 0; i < blocks.Count; i++)
        {
            MinimalLosslessJpeg tile = MinimalLosslessJpeg.Decode(blocks[i]);
            Assert.Equal(14, tile.Precision);
            Assert.Equal(24, tile.Columns);
            for (int row = 0; row < 32; row++)
            {
                int start = (((i / 2 * 32) + row) * 96) + (i % 2 * 48);
                Assert.Equal(codes[start..(start + 48)], tile.Samples[(row * 48)..((row + 1) * 48)]);
            }
        }
    }

    [Fact]
    public void LosslessTiles_OddSize_HoldsTheSamples()
    {
        var body = new VirtualBody { WidthPixels = 301, HeightPixels = 37, BitDepth = 12, BlackLevelDn = 64 };
        RehearsalPlan plan = RehearsalPlan.Of(new RehearsalOptions { Body = body, IsoValues = [100] });
        ushort[] codes = plan.Expose(plan.Frames[^20]);
        var dng = new MinimalDng(DngWriter.Encode(plan.Frames[^20].Raw, codes, DngOptions.LosslessTiles));
        MinimalLosslessJpeg[] tiles = [.. dng.Blocks().Select(MinimalLosslessJpeg.Decode)];
        Assert.Equal(2, tiles.Length);
        Assert.Equal(codes, Enumerable.Range(0, codes.Length).Select(i => tiles[i % 301 / 256].Samples[(i / 301 * 256) + (i % 301 % 256)]));
    }

    [Fact]
    public void DngWriter_LosslessOptionsThatDontFit_Throw()
    {
        var body = new VirtualBody { WidthPixels = 34, HeightPixels = 20 };
        RawFrame frame = RehearsalPlan.Of(new RehearsalOptions { Body = body, IsoValues = [100] }).Frames[0].Raw;
        var codes = new ushort[34 * 20];
        foreach (LosslessJpegForm form in new[] { new() { Predictor = 0 }, new LosslessJpegForm { Components = 3 }, new() { Components = 4 }, new() { RestartRows = 4000 } })
        {
            Assert.Throws<ArgumentException>(() => DngWriter.Encode(frame, codes, new DngOptions { Compression = DngCompression.Lossless, LosslessJpeg = form }));
        }
    }
}
