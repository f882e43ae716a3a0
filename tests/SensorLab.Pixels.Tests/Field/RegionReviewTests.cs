using SensorLab.Frames;
using SensorLab.Pixels.Field;

namespace SensorLab.Pixels.Tests.Field;

/// <summary>A region that one frame suggested, against what the other levels show.</summary>
public sealed class RegionReviewTests
{
    private const int Width = 192;
    private const int Height = 128;
    private const int BlackDn = 500;
    private const int SignalDn = 8000;

    /// <summary>A cell a side: 192 × 128 photosites make cells of 8 × 8.</summary>
    private const int Cell = 8;

    private static readonly PixelRectangle Whole = new(0, 0, Width, Height);

    [Fact]
    public void BetterThan_EvenLevels_LeavesTheRegion() =>
        Assert.Null(RegionReview.BetterThan(Whole, [Dark(), Lit((_, _) => 1), Lit((_, _) => 0.3)]));

    [Fact]
    public void BetterThan_ShadingUpToTheRatioInAllLevels_LeavesTheRegion() =>
        Assert.Null(RegionReview.BetterThan(Whole, [Dark(), Lit((x, _) => 1 - (0.09 * x / Width)), Lit((x, _) => 0.4 - (0.036 * x / Width))]));

    // The field's edge comes into view on the right at one level, a leak into the top left corner at another.
    [Fact]
    public void BetterThan_FlawsAtSingleLevels_AvoidsThemAll()
    {
        const int Edge = 144;
        const int Leak = 32;

        PixelRectangle? better = RegionReview.BetterThan(
            Whole,
            [Dark(), Lit((_, _) => 1), Lit((x, _) => x < Edge ? 0.5 : 0.3), Lit((x, y) => x < Leak && y < Leak ? 1.3 : 0.8)]);

        // Beside the leak 112 × 128 photosites are left, below it 144 × 96.
        Assert.Equal(new PixelRectangle(Leak, 0, Edge - Leak, Height), better);
    }

    [Fact]
    public void BetterThan_BandsThatWanderOverTheWholeFrame_LeavesTheRegion() => Assert.Null(RegionReview.BetterThan(
        Whole,
        [Dark(), .. Enumerable.Range(0, 6).Select(phase => Lit((_, y) => 0.7 + (0.2 * Math.Sin((y / 12.0) + phase))))]));

    /// <summary>A level whose cells scatter by a thirtieth is asked nothing, not even of an edge: the others are steadier witnesses.</summary>
    [Theory]
    [InlineData(0.8, true)]
    [InlineData(0.02, false)]
    public void BetterThan_AnEdgeInANoisyLevel_LeavesTheRegion(double noise, bool isNoisy)
    {
        var random = new Random(3);
        LevelStatistics edge = Lit((x, _) => (x < 96 ? 0.5 : 0.3) * (1 + (noise * (random.NextDouble() - 0.5))));

        Assert.Equal(isNoisy, RegionReview.BetterThan(Whole, [Dark(), Lit((_, _) => 1), edge]) is null);
    }

    [Fact]
    public void BetterThan_AnEdgeInADarkOrAClippedLevel_LeavesTheRegion() => Assert.Null(RegionReview.BetterThan(
        Whole,
        [Dark(), Lit((_, _) => 1), Lit((x, _) => x < 96 ? 0.01 : 0.02), Lit((x, _) => x < 96 ? 7.5 : 6)]));

    [Fact]
    public void FindCommon_NoisyFrame_IsNotCutUpByItsNoise()
    {
        var random = new Random(7);
        double[] noisy = [.. Enumerable.Range(0, Width * Height).Select(_ => 1 + (0.1 * (random.NextDouble() + random.NextDouble() - 1)))];

        Assert.Null(RegionReview.BetterThan(Whole, [Dark(), Lit((_, _) => 1), Lit((x, y) => noisy[(y * Width) + x])]));
    }

    // One cell in nine holds a hot pixel, which adds a tenth to the dimmer level: no light, and the dark frames have it too.
    [Fact]
    public void BetterThan_ManyHotPixels_LeavesTheRegion()
    {
        static double Hot(int x, int y) => x % 24 is 3 && y % 24 is 5 ? 0.5 : 0;

        Assert.Null(RegionReview.BetterThan(
            Whole,
            [Measured(Hot, FrameRole.Dark), Lit((x, y) => 0.5 + Hot(x, y)), Lit((x, y) => 0.05 + Hot(x, y))]));
    }

    // Bands across a small frame leave single rows of cells alike: too few photosites of a channel to be measured.
    [Fact]
    public void FindCommon_NoAreaButStrips_FindsNone() => Assert.Null(RegionFinder.FindCommon(
        [new LitField(Lit((_, y) => y / Cell % 2 == 0 ? 1 : 0.5).Field, BlackDn)],
        Whole));

    /// <summary>What is even in a field that is nowhere else is no region before it is a fiftieth of the field, here 7.7 cells.</summary>
    [Theory]
    [InlineData(2, false)]
    [InlineData(4, true)]
    public void FindCommon_EvenPatchOfASlope_CountsFromAFiftiethOn(int cells, bool isFound)
    {
        double Light(int x, int y) => Math.Max(x, y) < cells * Cell ? 1 : Math.Exp(-0.12 * ((x / Cell) + (y / Cell)));

        PixelRectangle? found = RegionFinder.FindCommon([new LitField(Lit(Light).Field, BlackDn)], Whole);

        Assert.Equal(isFound, found is not null);
    }

    /// <summary>The middle stands for a field without an even part; of a small frame it is as much as can be measured.</summary>
    [Theory]
    [InlineData(40, 28)]
    [InlineData(16, 200)]
    [InlineData(18, 18)]
    public void Find_SmallFrameWithoutAnEvenPart_LeavesEnoughToMeasure(int width, int height)
    {
        ushort[] frame = [.. Enumerable.Range(0, width * height).Select(i => (ushort)(BlackDn + (SignalDn * Math.Exp(-0.05 * ((i % width) + (i / width))))))];
        LevelStatistics level = MadeUpLevel.Measure([frame], width, ColourFilterArray.Rggb, FrameRole.Bracket);
        var layout = new MosaicLayout { WidthPixels = width, HeightPixels = height, ActiveArea = new PixelRectangle(0, 0, width, height), BitDepth = 14, ColourFilterArray = ColourFilterArray.Rggb };

        var field = new LitField(level.Field, BlackDn);

        PixelRectangle found = RegionFinder.Find(field, layout.ActiveArea);

        Assert.Null(RegionFinder.FindCommon([field], layout.ActiveArea));
        Assert.InRange(MeasurementArea.Of(layout, found).Region.Area, 16 * 16, width * height);
    }

    /// <summary>Of a frame that is large enough, the central quarter.</summary>
    [Fact]
    public void Find_FrameWithoutAnEvenPart_IsTheCentralQuarter()
    {
        var field = new LitField(Lit((x, y) => Math.Exp(-0.3 * ((x / Cell) + (y / Cell)))).Field, BlackDn);

        Assert.Null(RegionFinder.FindCommon([field], Whole));
        Assert.Equal(new PixelRectangle(Width / 4, (Height - 72) / 2, Width / 2, 72), RegionFinder.Find(field, Whole));
    }

    [Fact]
    public void RatioIn_PartOfTheField_CountsTheCellsInside()
    {
        var field = new LitField(Lit((x, _) => x < Width / 2 ? 1 : 0.5).Field, BlackDn);

        Assert.Equal(1, RegionFinder.RatioIn(field, new PixelRectangle(0, 0, Width / 2, Height)));
        Assert.Equal(2, RegionFinder.RatioIn(field, new PixelRectangle((Width / 2) - Cell, 0, 2 * Cell, Height)));
    }

    private static LevelStatistics Dark() => Measured((_, _) => 0, FrameRole.Dark);

    private static LevelStatistics Lit(Func<int, int, double> light) => Measured(light, FrameRole.Bracket);

    private static LevelStatistics Measured(Func<int, int, double> light, FrameRole role)
    {
        ushort[] frame = [.. Enumerable.Range(0, Width * Height).Select(i => (ushort)(BlackDn + (SignalDn * light(i % Width, i / Width))))];
        return MadeUpLevel.Measure([frame], Width, ColourFilterArray.Rggb, role);
    }
}
