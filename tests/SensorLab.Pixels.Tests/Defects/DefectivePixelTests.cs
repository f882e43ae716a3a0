using SensorLab.Frames;
using SensorLab.Pixels.Field;
using SensorLab.Pixels.Kernels;

namespace SensorLab.Pixels.Tests.Defects;

/// <summary>Pixels that stand out move neither what is measured nor where.</summary>
public sealed class DefectivePixelTests
{
    private const int Width = 96;
    private const int Height = 64;

    [Fact]
    public void RobustMean_OneValueFarOut_IsTheOthersMean()
    {
        // 98, 99, 100, 101, 102 ten times, and one of 4000: median 100, median deviation 1.
        int[] values = [.. Enumerable.Range(0, 50).Select(i => 98 + (i % 5)), 4000];

        Assert.Equal(100, RobustMean.Of(values, smallestDeviation: 2.5));
    }

    /// <summary>Where half of the values are one code, what rounding makes of their spread is half a code: eight deviations of it are 5.9 codes.</summary>
    [Theory]
    [InlineData(5, 605.0 / 6)]
    [InlineData(6, 100)]
    public void RobustMean_MostValuesOfOneCode_KeepsWhatHalfACodeOfSpreadAllows(int further, double mean)
    {
        int[] values = [100, 100, 100, 100, 100, 100 + further];

        Assert.Equal(mean, RobustMean.Of(values, smallestDeviation: 0), 1e-12);
    }

    [Fact]
    public void RobustMean_TwoCodes_KeepsBoth()
    {
        // Below a code of noise the median deviation is 0: rounding alone makes the second code.
        int[] values = [.. Enumerable.Repeat(100, 30), .. Enumerable.Repeat(101, 10)];

        Assert.Equal(100.25, RobustMean.Of(values, smallestDeviation: 2.5));
    }

    [Fact]
    public void CellOutliers_OneCellAlone_IsReplacedAndAnEdgeStays()
    {
        // From 100 to 104 in disorder, from column 6 on half as bright; one cell of 500.
        double[] cells = [.. Enumerable.Range(0, 80).Select(i => (100 + (Mixed((uint)i) % 100 / 25.0)) * (i % 10 < 6 ? 1 : 0.5))];
        double[] hot = [.. cells];
        hot[33] = 500;

        double[] replaced = CellOutliers.Replaced(hot, columns: 10);

        Assert.InRange(replaced[33], 100, 104);
        Assert.Equal(cells.Where((_, i) => i != 33), replaced.Where((_, i) => i != 33));
    }

    // A tenth of the pixels hot, from a little to a lot: their own deviation must not hide them.
    [Fact]
    public void LevelMeter_ATenthOfThePixelsHot_CountsAndReplacesThem()
    {
        ushort[][] frames = [.. Enumerable.Range(0, 2).Select(frame => MadeUp(frame, hot: true))];
        ushort[][] clean = [.. Enumerable.Range(0, 2).Select(frame => MadeUp(frame, hot: false))];

        ChannelStatistics own = MadeUpLevel.Measure(frames, Width, ColourFilterArray.Monochrome, FrameRole.Metered).Channels[0];
        ChannelStatistics other = MadeUpLevel.Measure(clean, Width, ColourFilterArray.Monochrome, FrameRole.Metered).Channels[0];

        // Codes lie evenly from 500 to 515; replaced pixels take their neighbour's, so that means differ by their sampling.
        const double SamplingDn = 0.5;
        Assert.Equal(Width * Height / 10.0, own.DefectivePixels, Width * Height / 200.0);
        Assert.Equal(other.FrameMeansDn[0], own.FrameMeansDn[0], SamplingDn);
        Assert.Equal(other.SpotMeanDn, own.SpotMeanDn, SamplingDn);
    }

    // The dark frames say where they lie, so that lit ones need not be told apart from their light.
    [Theory]
    [InlineData(FrameRole.Dark)]
    [InlineData(FrameRole.Bracket)]
    public void LevelMeter_HotPixels_AreListedByTheDarkAlone(FrameRole role)
    {
        int[] hot = [.. Enumerable.Range(0, Width * Height).Where(IsHot)];

        ChannelStatistics own = MadeUpLevel.Measure([.. Enumerable.Range(0, 2).Select(frame => MadeUp(frame, hot: true))], Width, ColourFilterArray.Monochrome, role).Channels[0];

        Assert.Equal(role == FrameRole.Dark ? hot : [], own.DefectSites);
    }

    // A value that stands twice in a row of a block has no deviation of its own: uncounted, it would take nearly a hundredth off here.
    [Fact]
    public void LevelMeter_AnEighthOfThePixelsReplaced_HasTheNoiseOfTheSoundOnes()
    {
        const int width = 1024;
        const int sites = width * 960;
        ushort[][] frames = [.. Enumerable.Range(0, 2).Select(frame => (ushort[])[.. Enumerable.Range(0, sites).Select(site =>
            (ushort)(500 + (Mixed((uint)(site + (frame * sites))) % 16) + (Mixed((uint)site + 77_777) % 8 == 0 ? 3000 : 0)))])];

        ChannelStatistics own = MadeUpLevel.Measure(frames, width, ColourFilterArray.Monochrome).Channels[0];

        // Sixteen codes alike: (16² − 1)/12; of as many pixels the estimate's standard deviation is 0.12 %.
        Assert.Equal(sites / 8.0, own.DefectivePixels, sites / 200.0);
        Assert.Equal(255 / 12.0, own.Temporal!.Parts.PixelDn2, 255 / 12.0 * 0.004);
    }

    private static bool IsHot(int site) => Mixed((uint)site + 77_777) % 10 == 0;

    /// <summary>Codes from 500 to 515 in disorder, every tenth pixel up to 6000 higher in all frames.</summary>
    private static ushort[] MadeUp(int frame, bool hot)
    {
        var codes = new ushort[Width * Height];
        for (int i = 0; i < codes.Length; i++)
        {
            uint mixed = Mixed((uint)((frame * codes.Length) + i + 1));
            uint place = Mixed((uint)i + 77_777);
            uint excess = hot && IsHot(i) ? 200 + (place / 10 % 5800) : 0;
            codes[i] = (ushort)(500 + (mixed % 16) + excess);
        }

        return codes;
    }

    private static uint Mixed(uint value)
    {
        value = (value ^ (value >> 16)) * 0x7FEB352D;
        value = (value ^ (value >> 15)) * 0x846CA68B;
        return value ^ (value >> 16);
    }
}
