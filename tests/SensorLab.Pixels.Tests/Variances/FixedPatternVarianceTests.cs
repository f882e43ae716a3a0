using SensorLab.Frames;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Pixels.Tests.Variances;

public sealed class FixedPatternVarianceTests
{
    private const int Width = 192;
    private const int Height = 192;
    private const double PatternDn = 8;

    /// <summary>A pattern of 8 DN, and in one corner a patch of dust with a tenfold: the patch is no pattern of the sensor.</summary>
    [Fact]
    public void Of_APatchOfDust_LeavesItsBlocksOut()
    {
        var random = new Random(5);
        double[] pattern = [.. Enumerable.Range(0, Width * Height).Select(i => PatternDn * Normal(random) * (i % Width < 24 && i / Width < 24 ? 10 : 1))];
        ushort[][] frames = [.. Enumerable.Range(0, 4).Select(_ => pattern.Select(p => (ushort)Math.Round(4000 + p + (3 * Normal(random)))).ToArray())];

        ChannelStatistics measured = Assert.Single(MadeUpLevel.Measure(frames, Width, ColourFilterArray.Monochrome).Channels);

        // With the patch it would be 2.5 times as much.
        Assert.Equal(PatternDn * PatternDn, measured.FixedPattern!.PixelDn2, 0.05 * PatternDn * PatternDn);
    }

    /// <summary>Columns of which every second one lies 10 DN higher have a variance of 25 DN², as a readout on either side of the sensor makes them; columns that scatter by 5 DN have as much.</summary>
    [Theory]
    [InlineData(true, 0.02)]
    [InlineData(false, 0.5)]
    public void Of_ColumnsByTurns_HasTheVarianceOfTheirMeans(bool isByTurns, double tolerance)
    {
        var random = new Random(5);
        double[] columns = [.. Enumerable.Range(0, Width).Select(x => isByTurns ? 5 * ((x % 2 * 2) - 1) : 5 * Normal(random))];
        ushort[][] frames = [.. Enumerable.Range(0, 4).Select(_ => Enumerable.Range(0, Width * Height).Select(i => (ushort)Math.Round(4000 + columns[i % Width] + (3 * Normal(random)))).ToArray())];

        ChannelStatistics measured = Assert.Single(MadeUpLevel.Measure(frames, Width, ColourFilterArray.Monochrome).Channels);

        // 192 columns drawn at random have their variance to 14 % by second differences, within three and a half deviations of that; by turns they have it exactly. Rows have none, to 0.01 DN².
        Assert.Equal(25, measured.FixedPattern!.ColumnDn2, 25 * tolerance);
        Assert.InRange(measured.FixedPattern.RowDn2, -0.05, 0.05);
    }

    /// <summary>Noise that is three times as large at one side as at the other is no pattern there: what all frames share is 2 DN everywhere, and no block is left out for its noise.</summary>
    [Fact]
    public void Of_NoiseThatDiffersOverTheField_IsThePatternAlone()
    {
        var random = new Random(7);
        double[] pattern = [.. Enumerable.Range(0, Width * Height).Select(_ => 2 * Normal(random))];
        double NoiseDn(int i) => 4 + (8.0 * (i % Width) / Width);
        ushort[][] frames = [.. Enumerable.Range(0, 2).Select(_ => pattern.Select((p, i) => (ushort)Math.Round(4000 + p + (NoiseDn(i) * Normal(random)))).ToArray())];

        ChannelStatistics measured = Assert.Single(MadeUpLevel.Measure(frames, Width, ColourFilterArray.Monochrome).Channels);

        // Its uncertainty is some 0.35 DN² with noise of 70 DN² and two frames; with the noisier blocks left out it came out 14 DN² too small.
        Assert.Equal(4, measured.FixedPattern!.PixelDn2, 4 * measured.FixedPattern.PixelUncertaintyDn2);
        Assert.InRange(measured.FixedPattern.PixelUncertaintyDn2, 0.1, 1);
    }
}
