using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Tests.Fitting;

/// <summary>Analysis of variance against the certified values of NIST: F, and both mean squares.</summary>
public sealed class OneWayVarianceTests
{
    /// <summary>SmLs07 to 09 hold three varying digits beside thirteen constant ones: double precision stores no more than 3 to 4 of them.</summary>
    private const int DigitsOfTheDataAlone = 3;

    [Theory]
    [InlineData("SiRstvt", 9)]
    [InlineData("SmLs01t", 9)]
    [InlineData("SmLs02t", 9)]
    [InlineData("SmLs03t", 9)]
    [InlineData("AtmWtAgt", 7)]
    [InlineData("SmLs04t", 7)]
    [InlineData("SmLs05t", 7)]
    [InlineData("SmLs06t", 7)]
    [InlineData("SmLs07t", DigitsOfTheDataAlone)]
    [InlineData("SmLs08t", DigitsOfTheDataAlone)]
    [InlineData("SmLs09t", DigitsOfTheDataAlone)]
    public void Of_CertifiedGroups_ReachesItsDigits(string name, int digits)
    {
        CertifiedSet data = CertifiedSet.Open(name);
        double[] between = data.Values("between");
        double[] within = data.Values("within");
        double[][] rows = data.Rows;
        double[][] groups = [.. Enumerable.Range(0, rows[0].Length).Select(column => rows.Select(r => r[column]).ToArray())];
        OneWayVariance analysis = OneWayVariance.Of(groups)!.Value;
        Assert.Equal(between[0], analysis.BetweenDegrees);
        Assert.Equal(within[0], analysis.WithinDegrees);
        double least = Math.Min(
            CertifiedSet.Digits(analysis.Ratio, between[3]),
            Math.Min(CertifiedSet.Digits(analysis.BetweenMeanSquare, between[2]), CertifiedSet.Digits(analysis.WithinMeanSquare, within[2])));
        Assert.True(least >= digits, $"{name}: {least:0.0} digits, asked {digits}");
    }

    [Fact]
    public void Of_OneGroup_GivesNothing() => Assert.Null(OneWayVariance.Of([[1, 2, 3]]));
}
