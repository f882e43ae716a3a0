using SensorLab.Measurement.Previews;

namespace SensorLab.Measurement.Tests.Previews;

public sealed class ToneCurveTests
{
    /// <summary>Four points give a cubic back exactly, between the last two points as well as between the first.</summary>
    [Theory]
    [InlineData(-2.5)]
    [InlineData(0.25)]
    [InlineData(2.5)]
    public void CodeAt_CurveThatIsACubic_IsTheCubic(double ev)
    {
        static double Cubic(double x) => 100 + (20 * x) + (2 * x * x) + (x * x * x);

        ToneCurve curve = ToneCurve.Through(Enumerable.Range(-3, 7).Select(i => new ToneNode(i, Cubic(i))));

        Assert.Equal(Cubic(ev), curve.CodeAt(ev)!.Value, 1e-9);
        Assert.Null(curve.CodeAt(3.01));
        Assert.Null(curve.CodeAt(-3.01));
    }
}
