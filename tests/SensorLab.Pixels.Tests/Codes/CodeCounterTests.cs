using SensorLab.Pixels.Codes;
using SensorLab.Profiles;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Pixels.Tests.Codes;

public sealed class CodeCounterTests
{
    private const int Columns = 1000;
    private const int Rows = 40;

    /// <summary>As many pixels in all that every tenth row would do.</summary>
    private const long Pixels = 10_000_000;

    /// <summary>Noise of a quarter code: shares of codes and spread between frames have to be of the same pixels. A hot photosite here and there changes nothing.</summary>
    [Theory]
    [InlineData(0.25, 0)]
    [InlineData(0.25, 3)]
    [InlineData(1, 0)]
    public void Count_DarkValuesOfFewCodes_CountsEveryRow(double noiseDn, int hot) =>
        Assert.Equal(Rows * Columns, Counted(noiseDn, hot, dark: true).Counts.Sum());

    /// <summary>Of wide noise a sample of rows says as much, and of lit frames, whose clipped ones have one code, too.</summary>
    [Theory]
    [InlineData(2, true)]
    [InlineData(0.25, false)]
    public void Count_WideNoiseOrLight_CountsASampleOfRows(double noiseDn, bool dark) =>
        Assert.Equal(Rows / 10 * Columns, Counted(noiseDn, 0, dark).Counts.Sum());

    /// <summary>Every value is counted once, at its own code, whatever the row's length.</summary>
    [Fact]
    public void ToHistogram_ValuesOfKnownCounts_HasThem()
    {
        using var counter = new CodeCounter(Columns, dark: false);
        counter.Count(0, [7, 5, 5, 9, 5, 7, ushort.MaxValue]);
        counter.Count(1, [6]);

        CodeHistogram codes = counter.ToHistogram();

        Assert.Equal(5, codes.FirstCodeDn);
        Assert.Equal([3, 1, 2, 0, 1], codes.Counts.Take(5));
        Assert.Equal(1, codes.Counts[^1]);
        Assert.Equal(8, codes.Counts.Sum());
    }

    private static CodeHistogram Counted(double noiseDn, int hot, bool dark)
    {
        var random = new Random(9);
        using var counter = new CodeCounter(Pixels, dark);
        for (int row = 0; row < Rows; row++)
        {
            ushort[] values = [.. Enumerable.Range(0, Columns).Select(i => (ushort)Math.Round(i < hot ? 900 + (100 * i) : 100 + (noiseDn * Normal(random))))];
            counter.Count(row, values);
        }

        return counter.ToHistogram();
    }
}
