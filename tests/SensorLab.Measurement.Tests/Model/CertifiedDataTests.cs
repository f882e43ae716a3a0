using SensorLab.Law;
using SensorLab.Measurement.Tests.Fitting;
using SensorLab.Pixels.Variances;

namespace SensorLab.Measurement.Tests.Model;

/// <summary>The straight line and the variance against certified values: the sets that are one or the other.</summary>
public sealed class CertifiedDataTests
{
    /// <summary>The intercept, a small difference of large numbers, keeps 11.9; the rest 13 and more.</summary>
    private const int NorrisDigits = 11;

    [Fact]
    public void WeightedLine_Norris_ReachesElevenDigits()
    {
        CertifiedSet data = CertifiedSet.Open("Norris");
        double[][] rows = data.Rows;
        Assert.Equal(36, rows.Length);
        double residual = data.Values("residualDeviation")[0];
        double weight = 1 / (residual * residual);
        WeightedLine line = WeightedLine.Fit([.. rows.Select(r => (r[1], r[0], weight))])!;
        double[] intercept = data.Parameters[0];
        double[] slope = data.Parameters[1];
        AssertDigits(line.Intercept, intercept[0]);
        AssertDigits(line.Slope, slope[0]);
        AssertDigits(Math.Sqrt(line.InterceptVariance), intercept[1]);
        AssertDigits(Math.Sqrt(line.SlopeVariance), slope[1]);
        AssertDigits(Math.Sqrt(line.ChiSquare / weight / 34), residual);
    }

    private static void AssertDigits(double computed, double certified) =>
        Assert.True(CertifiedSet.Digits(computed, certified) >= NorrisDigits, $"{CertifiedSet.Digits(computed, certified):0.0} digits of {certified}");

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
        CertifiedSet data = CertifiedSet.Open(name);
        double[] values = [.. data.Rows.Select(r => r[0])];
        double certified = data.Values("deviation")[0];
        double deviation = Math.Sqrt(LineMeansVariance.AboutMean(values, 1).Value);
        Assert.True(CertifiedSet.Digits(deviation, certified) >= digits, $"{name}: {CertifiedSet.Digits(deviation, certified):0.0} digits");
    }
}
