namespace SensorLab.RawFiles.Tests;

public sealed class CurveStepsTests
{
    private static readonly Dictionary<string, (bool Grows, Func<int, double> Curve)> Curves = new()
    {
        ["identity"] = (false, code => code),
        ["scaled, rounded"] = (false, code => code * 1.37),
        ["clipped"] = (false, code => Math.Min(code, 3000)),
        ["behind a foot"] = (false, code => Math.Max(0, code - 500)),
        ["falling off"] = (false, code => 4000 * Math.Sqrt(code / 4096.0)),
        ["square"] = (true, code => code * code / 300.0),
        ["straight, then by four"] = (true, code => code < 2048 ? code : 2048 + (4 * (code - 2048))),
        ["square, then flat as LibRaw fills it"] = (true, code => Math.Min(code, 1000) * Math.Min(code, 1000) / 100.0),
    };

    public static TheoryData<string> CurveNames() => [.. Curves.Keys];

    [Theory]
    [MemberData(nameof(CurveNames))]
    public void Grow_OfCurves_IsTrueWhereStepsGrow(string name) =>
        Assert.Equal(Curves[name].Grows, CurveSteps.Grow([.. Enumerable.Range(0, 4096).Select(code => (ushort)Curves[name].Curve(code))]));
}
