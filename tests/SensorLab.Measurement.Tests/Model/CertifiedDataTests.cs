using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Pixels;
using SensorLab.Measurement.Tests.Fitting;

namespace SensorLab.Measurement.Tests.Model;

/// <summary>The straight line and the variance against certified values: the sets that are one or the other.</summary>
public sealed class CertifiedDataTests
{
    /// <summary>The intercept, a small difference of large numbers, keeps 11.9; the rest 13 and more.</summary>
    private const int NorrisDigits = 11;

    [Fact]
    public void WeightedLine_Norris_ReachesElevenDigits()
    {
        NistData data = NistData.Open("Norris");
        double[][] rows = [.. data.Rows(61).Where(r => r.Length == 2)];
        Assert.Equal(36, rows.Length);
        double residual = data.Labelled("Standard Deviation")[0];
        double weight = 1 / (residual * residual);
        WeightedLine line = WeightedLine.Fit([.. rows.Select(r => (r[1], r[0], weight))])!;
        double[] intercept = data.Labelled("B0");
        double[] slope = data.Labelled("B1");
        AssertDigits(line.Intercept, intercept[0]);
        AssertDigits(line.Slope, slope[0]);
        AssertDigits(Math.Sqrt(line.InterceptVariance), intercept[1]);
        AssertDigits(Math.Sqrt(line.SlopeVariance), slope[1]);
        AssertDigits(Math.Sqrt(line.ChiSquare / weight / 34), residual);
    }

    private static void AssertDigits(double computed, double certified) =>
        Assert.True(NistData.Digits(computed, certified) >= NorrisDigits, $"{NistData.Digits(computed, certified):0.0} digits of {certified}");

    /// <summary>NumAcc3's data themselves have no more than 9 digits in double precision: 0.1 in 10⁶.</summary>
    [Theory]
    [InlineData("Lottery", 14)]
    [InlineData("Lew", 14)]
    [InlineData("Mavro", 12)]
    [InlineData("Michelso", 13)]
    [InlineData("NumAcc1", 14)]
    [InlineData("NumAcc2", 14)]
    [InlineData("NumAcc3", 9)]
    public void AboutMean_UnivariateData_ReachesItsDigits(string name, int digits)
    {
        NistData data = NistData.Open(name);
        double[] values = data.Column();
        Assert.Equal(data.Labelled("Number of Observations:")[0], values.Length);
        double certified = data.Labelled("Sample Standard Deviation (denom. = n-1)")[^1];
        double deviation = Math.Sqrt(ProfileVariance.AboutMean(values, 1).Value);
        Assert.True(NistData.Digits(deviation, certified) >= digits, $"{name}: {NistData.Digits(deviation, certified):0.0} digits");
    }
}
