using MathNet.Numerics.Distributions;
using SensorLab.Measurement.Codes;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Codes;

public sealed class CodeSpacingTests
{
    private const int Values = 150_000;
    private const double DeviationDn = 100;

    [Fact]
    public void Of_NormalValues_IsOne() => Assert.Equal(1, CodeSpacing.Of(Codes(1, 0))!.Value.StepDn);

    /// <summary>A tenth more leaves every eleventh code empty.</summary>
    [Theory]
    [InlineData(1.1)]
    [InlineData(4)]
    [InlineData(8)]
    public void Of_MultipliedValues_IsTheFactor(double factor) => Assert.Equal(factor, CodeSpacing.Of(Codes(factor, 0))!.Value.StepDn, 0.02);

    /// <summary>Two frames of different light: in the valley between them codes are empty by chance, and no step can be told.</summary>
    [Fact]
    public void Of_FramesOfDifferentLight_DoesNotTell()
    {
        CodeHistogram codes = Codes(1, 7 * DeviationDn);
        int peak = (int)(DeviationDn * 4);
        Assert.Contains(codes.Counts.Skip(peak).Take((int)(7 * DeviationDn)), count => count == 0);

        Assert.Null(CodeSpacing.Of(codes));
    }

    /// <summary>Two codes apart are as well two frames that are clipped at a code each.</summary>
    [Fact]
    public void Of_TwoCodes_DoesNotTell() => Assert.Null(CodeSpacing.Of(new CodeHistogram(4000, [5000, 0, 0, 5000])));

    /// <summary>Where a few codes are all there is, one of them more or less is no other step; bits that are missing are.</summary>
    [Theory]
    [InlineData(3, 2, 4, 4, false)]
    [InlineData(8, 6, 4, 4, false)]
    [InlineData(12, 3, 5, 5, true)]
    [InlineData(80, 40, 60, 60, true)]
    [InlineData(80, 60, 60, 60, false)]
    public void IsWiderThan_FewCodesOrMany_AllowsForTheEnds(int codes, int steps, int otherCodes, int otherSteps, bool expected) =>
        Assert.Equal(expected, new CodeSpacing(codes, steps).IsWiderThan(new CodeSpacing(otherCodes, otherSteps), 1.4));

    private static CodeHistogram Codes(double factor, double apartDn)
    {
        double[] values = new double[2 * Values];
        Normal.Samples(new Random(4), values, 2000, DeviationDn);
        long[] codes = [.. values.Select((v, i) => (long)Math.Round(factor * Math.Round(v + (i % 2 * apartDn))))];
        long first = codes.Min();
        long[] counts = new long[codes.Max() - first + 1];
        foreach (long code in codes)
        {
            counts[code - first]++;
        }

        return new CodeHistogram((int)first, counts);
    }
}
