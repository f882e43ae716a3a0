using MathNet.Numerics.Distributions;
using SensorLab.Measurement.Codes;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Codes;

/// <summary>Dark codes drawn from distributions that are cut off, and from others that might look so.</summary>
public sealed class DarkFloorTests
{
    private const int Frames = 4;
    private const int Pixels = 9600;

    [Theory]
    [InlineData(512.25, 1.2, 512)]
    [InlineData(512.25, 1.2, 511)]
    [InlineData(512.25, 1.2, 513)]
    [InlineData(128.5, 3.0, 125)]
    [InlineData(128.5, 3.0, 122)]
    [InlineData(1024.5, 9.0, 1005)]
    [InlineData(100.0, 0.8, 100)]
    [InlineData(100.25, 0.4, 100)]
    [InlineData(1.2, 1.5, 0)]
    public void Of_ValuesRaisedToAFloor_IsTheFloor(double black, double deviation, int floor)
    {
        Assert.Equal(floor, DarkFloor.Of(Codes(random => Math.Max(floor, Math.Round(Normal.Sample(random, black, deviation)))), Frames));
    }

    // From 0.22 codes, where two codes are all there is, to where the lowest code is a single value's.
    [Theory]
    [InlineData(0.22)]
    [InlineData(0.5)]
    [InlineData(0.65)]
    [InlineData(0.9)]
    [InlineData(3.0)]
    [InlineData(20.0)]
    public void Of_WholeDistribution_IsNull(double deviation)
    {
        for (int i = 0; i < 20; i++)
        {
            Assert.Null(DarkFloor.Of(Codes(random => Math.Round(Normal.Sample(random, 512 + (i / 20.0), deviation)), i), Frames));
        }
    }

    // What sticks out above has no mirror below, and is no cut: a two-hundredth of the pixels warm, dark signal of every pixel's own.
    [Theory]
    [InlineData(0.25, 0.005)]
    [InlineData(1.2, 0.05)]
    [InlineData(1.2, 1)]
    [InlineData(3.0, 1)]
    public void Of_LongUpperTail_IsNull(double deviation, double share)
    {
        Assert.Null(DarkFloor.Of(Codes(random => Math.Round(Normal.Sample(random, 512.5, deviation) + (random.NextDouble() < share ? Exponential.Sample(random, 0.2) : 0))), Frames));
    }

    // Warm pixels beside noise of a quarter of a code, wherever black lies: they seem to say that as many are missing below, and no more.
    [Theory]
    [InlineData(0.0005)]
    [InlineData(0.005)]
    public void Of_CoarseCodesWithWarmPixels_IsNull(double share)
    {
        for (int i = 0; i < 20; i++)
        {
            Assert.Null(DarkFloor.Of(Codes(random => Math.Round(Normal.Sample(random, 512 + (i / 20.0), 0.25) + (random.NextDouble() < share ? Exponential.Sample(random, 0.2) : 0)), i), Frames));
        }
    }

    [Fact]
    public void Of_MultipliedCodes_TellsACutFromGaps()
    {
        Assert.Null(DarkFloor.Of(Codes(random => 4 * Math.Round(Normal.Sample(random, 128.3, 0.8))), Frames));
        Assert.Equal(508, DarkFloor.Of(Codes(random => 4 * Math.Max(127, Math.Round(Normal.Sample(random, 128.3, 1.5)))), Frames));
    }

    private static CodeHistogram Codes(Func<Random, double> draw, int seed = 1)
    {
        var random = new Random(seed);
        int[] codes = [.. Enumerable.Range(0, Frames * Pixels).Select(_ => (int)Math.Max(0, draw(random)))];
        int first = codes.Min();
        long[] counts = new long[codes.Max() - first + 1];
        foreach (int code in codes)
        {
            counts[code - first]++;
        }

        return new CodeHistogram(first, counts);
    }
}
