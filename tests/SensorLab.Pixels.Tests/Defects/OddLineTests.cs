using SensorLab.Frames;

namespace SensorLab.Pixels.Tests.Defects;

/// <summary>Lines that stand out: wherever they lie, and in planes of one block as well; edges and shading are none.</summary>
public sealed class OddLineTests
{
    private const int Height = 80;
    private const double MeanDn = 500;
    private const double NoiseDn = 5;
    private const int BrighterDn = 40;

    [Theory]
    [InlineData(120, 0)]
    [InlineData(120, 1)]
    [InlineData(120, 3)]
    [InlineData(120, 4)]
    [InlineData(120, 60)]
    [InlineData(120, 119)]
    [InlineData(40, 0)]
    [InlineData(40, 17)]
    [InlineData(40, 39)]
    public void Column_ThatIsBrighter_IsFound(int width, int line) =>
        Assert.Equal([(false, line)], Found(width, (x, _) => x == line ? BrighterDn : 0));

    [Theory]
    [InlineData(120, 0)]
    [InlineData(120, 78)]
    [InlineData(40, 2)]
    [InlineData(40, 41)]
    public void Row_ThatIsDarker_IsFound(int width, int line) =>
        Assert.Equal([(true, line)], Found(width, (_, y) => y == line ? -BrighterDn : 0));

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(9)]
    public void EdgeInView_IsNoLine(int wide) => Assert.Empty(Found(120, (x, _) => x < wide ? -10 * BrighterDn : 0));

    [Fact]
    public void ShadingThatIsSteepAtTheRim_IsNoLine() => Assert.Empty(Found(120, (x, y) => 200 * (Math.Exp(-x / 6.0) + Math.Exp(-y / 6.0))));

    [Fact]
    public void HalfAColumn_IsNoLine() => Assert.Empty(Found(120, (x, y) => x == 60 && y < Height / 2 ? BrighterDn : 0));

    private static IEnumerable<(bool IsRow, int Photosite)> Found(int width, Func<int, int, double> light)
    {
        var random = new Random(11);
        ushort[][] frames = [.. Enumerable.Range(0, 2).Select(_ => Enumerable.Range(0, width * Height)
            .Select(i => (ushort)Math.Round(MeanDn + light(i % width, i / width) + (NoiseDn * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1))))
            .ToArray())];
        return MadeUpLevel.Measure(frames, width, ColourFilterArray.Monochrome, FrameRole.Metered).Channels[0].OddLines.Select(o => (o.IsRow, o.Photosite));
    }
}
