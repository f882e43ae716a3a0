namespace SensorLab.Law.Tests;

public sealed class StudentTailTests
{
    // Tables of Student's t print three or four digits.
    private const double TableTolerance = 6e-4;

    [Theory]
    [InlineData(0.025, 1, 12.706)]
    [InlineData(0.025, 4, 2.776)]
    [InlineData(0.05, 10, 1.812)]
    [InlineData(0.025, double.PositiveInfinity, 1.960)]
    public void Quantile_OfATail_IsTheTables(double probability, double freedom, double quantile) =>
        Assert.Equal(quantile, StudentTail.Quantile(probability, freedom), TableTolerance);

    [Theory]
    [InlineData(1, 12.706)]
    [InlineData(9, 2.262)]
    [InlineData(double.PositiveInfinity, 1.960)]
    public void Factor95_OfDegreesOfFreedom_IsTheTables(double freedom, double factor) =>
        Assert.Equal(factor, StudentTail.Factor95(freedom), TableTolerance);

    [Fact]
    public void Above_FewerDegreesThanOne_IsThatOfOne() => Assert.Equal(StudentTail.Above(2, 1), StudentTail.Above(2, 0.3), 12);

    [Fact]
    public void Above_AQuantile_IsItsProbability() =>
        Assert.All([1.0, 2.5, 30, 1e6], freedom => Assert.Equal(0.01, StudentTail.Above(StudentTail.Quantile(0.01, freedom), freedom), 9));
}
