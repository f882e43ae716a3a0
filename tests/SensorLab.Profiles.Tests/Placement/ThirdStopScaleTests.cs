using SensorLab.Profiles.Placement;

namespace SensorLab.Profiles.Tests.Placement;

public sealed class ThirdStopScaleTests
{
    // A label is rounded by less than half a third; more would name the step beside it.
    private const double HalfAThird = 0.5;

    [Fact]
    public void Scales_EveryLabel_NamesItsStep()
    {
        Assert.All(ThirdStopScale.Shutters, s => Assert.Equal(3 * Math.Log2(Seconds(s.Label)), s.Thirds, HalfAThird));
        Assert.All(ThirdStopScale.Apertures, s => Assert.Equal(6 * Math.Log2(double.Parse(s.Label, System.Globalization.CultureInfo.InvariantCulture)), s.Thirds, HalfAThird));
        Assert.All(ThirdStopScale.Isos, s => Assert.Equal(3 * Math.Log2(int.Parse(s.Label, System.Globalization.CultureInfo.InvariantCulture) / 100.0), s.Thirds, HalfAThird));
        Assert.Equal((55, 31, 34), (ThirdStopScale.Shutters.Count, ThirdStopScale.Apertures.Count, ThirdStopScale.Isos.Count));
    }

    [Fact]
    public void SpotReading_EveryLabelOfTheScales_IsTakenForItsThird()
    {
        Assert.All(ThirdStopScale.Shutters, s => Assert.Equal(-s.Thirds / 3.0, new SpotReading(Seconds(s.Label), 1, 100).LightEv));
        Assert.All(ThirdStopScale.Apertures, s => Assert.Equal(s.Thirds / 3.0, new SpotReading(1, double.Parse(s.Label, System.Globalization.CultureInfo.InvariantCulture), 100).LightEv));
        Assert.All(ThirdStopScale.Isos, s => Assert.Equal(s.Thirds / 3.0, ThirdStopScale.SpeedEv(int.Parse(s.Label, System.Globalization.CultureInfo.InvariantCulture))));
    }

    // 1/60 at f/8 and ISO 400: 6 + 6 − 2, the label 1/60 being 1/64 s.
    [Fact]
    public void LightEv_ByHand_IsLog2OfSquareOverTimeLessSpeed() => Assert.Equal(10, new SpotReading(1 / 60.0, 8, 400).LightEv);

    [Theory]
    [InlineData(1 / 45.0)]
    [InlineData(1 / 350.0)]
    [InlineData(0.7)]
    public void LightEv_HalfStop_StaysAsWritten(double seconds) => Assert.Equal(-Math.Log2(seconds), new SpotReading(seconds, 1, 100).LightEv);

    [Theory]
    [InlineData(0.166, 0)]
    [InlineData(0.17, 1)]
    [InlineData(-0.17, -1)]
    [InlineData(0.41, 1)]
    [InlineData(0.5, 2)]
    public void Nearest_Ev_IsTheNearestThird(double ev, int thirds) => Assert.Equal(thirds / 3.0, ThirdStopScale.Nearest(ev));

    [Theory]
    [InlineData(1.0, 3, 3)]
    [InlineData(1.01, 3, 4)]
    [InlineData(-0.1, -1, 0)]
    [InlineData(2.0 / 3, 2, 2)]
    public void FloorAndCeiling_Ev_AreTheThirdsBeside(double ev, int floor, int ceiling) =>
        Assert.Equal((floor / 3.0, ceiling / 3.0), (ThirdStopScale.Floor(ev), ThirdStopScale.Ceiling(ev)));

    [Fact]
    public void SpotReading_NumbersThatAreNoSettings_Throw()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new SpotReading(0, 8, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SpotReading(1, double.NaN, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SpotReading(1, 8, 0));
    }

    private static double Seconds(string label) => label.Split('/') is [_, var below]
        ? 1 / double.Parse(below, System.Globalization.CultureInfo.InvariantCulture)
        : double.Parse(label, System.Globalization.CultureInfo.InvariantCulture);
}
