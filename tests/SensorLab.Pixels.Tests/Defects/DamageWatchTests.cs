using SensorLab.Frames;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Pixels.Tests.Defects;

/// <summary>Frames with a stretch of one value, as a failing card or copy makes, and frames that only look so.</summary>
public sealed class DamageWatchTests
{
    private const int Width = 320;
    private const int Height = 200;
    private const int Block = 16384;

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0, 40 * Width)]
    [InlineData(0, (40 * Width) + 111)]
    [InlineData(21845, (Width * Height) - Block)]
    [InlineData(ushort.MaxValue, 40 * Width)]
    public void Measure_BlockOfOneValueInOneFrame_NamesTheFrame(int value, int at)
    {
        ushort[][] frames = [Noise(1, 512, 3), Noise(2, 512, 3), Noise(3, 512, 3)];
        frames[1].AsSpan(at, Block).Fill((ushort)value);

        LevelFrameException thrown = Assert.Throws<LevelFrameException>(() => MadeUpLevel.Measure(frames, Width, ColourFilterArray.Rggb, FrameRole.Dark));

        Assert.Equal("1", thrown.Frame.File);
        Assert.IsType<MalformedFileException>(thrown.InnerException);
    }

    /// <summary>A part of twenty rows, as a recording in tiles loses them.</summary>
    [Fact]
    public void Measure_TileOfOneValueInOneFrame_NamesTheFrame()
    {
        ushort[][] frames = [Noise(1, 512, 3), Noise(2, 512, 3)];
        for (int y = 40; y < 60; y++)
        {
            frames[0].AsSpan((y * Width) + 50, 200).Clear();
        }

        LevelFrameException thrown = Assert.Throws<LevelFrameException>(() => MadeUpLevel.Measure(frames, Width, ColourFilterArray.Rggb, FrameRole.Dark));

        Assert.Equal("0", thrown.Frame.File);
    }

    [Fact]
    public void Measure_BlockInALoneFrame_NamesIt()
    {
        ushort[] frame = Noise(1, 512, 3);
        frame.AsSpan(5000, Block).Clear();

        Assert.Throws<LevelFrameException>(() => MadeUpLevel.Measure([frame], Width, ColourFilterArray.Rggb, FrameRole.Dark));
    }

    [Theory]
    [InlineData(0.0, 0.2)]
    [InlineData(0.5, 0.2)]
    [InlineData(512.0, 0.12)]
    [InlineData(-40.0, 20)]
    public void Measure_CoarseOrCutOffDarkValues_AreSound(double mean, double deviation) =>
        Assert.NotNull(MadeUpLevel.Measure([Noise(1, mean, deviation), Noise(2, mean, deviation)], Width, ColourFilterArray.Rggb, FrameRole.Dark));

    [Fact]
    public void Measure_LightThatClipsInOneFrameAlone_IsSound()
    {
        ushort[][] frames = [Field(1, 15000), Field(2, 18500)];

        Assert.NotNull(MadeUpLevel.Measure(frames, Width, ColourFilterArray.Rggb));
    }

    [Fact]
    public void Measure_LinesThatAreDeadInEveryFrame_AreSound()
    {
        ushort[][] frames = [Noise(1, 512, 3), Noise(2, 512, 3)];
        foreach (ushort[] frame in frames)
        {
            frame.AsSpan(30 * Width, 8 * Width).Clear();
        }

        Assert.NotNull(MadeUpLevel.Measure(frames, Width, ColourFilterArray.Rggb, FrameRole.Dark));
    }

    private static ushort[] Noise(int seed, double mean, double deviation)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, Width * Height).Select(_ => Code(mean + (deviation * Normal(random))))];
    }

    // Bright in the middle: what clips is a disc.
    private static ushort[] Field(int seed, double middle)
    {
        var random = new Random(seed);
        return
        [
            .. Enumerable.Range(0, Width * Height).Select(i =>
            {
                double square = Math.Pow((i % Width) - (Width / 2.0), 2) + Math.Pow((i / Width) - (Height / 2.0), 2);
                return Math.Min((ushort)16383, Code((middle * (1 - (square / 60_000))) + (60 * Normal(random))));
            }),
        ];
    }

    private static ushort Code(double value) => (ushort)Math.Clamp(Math.Round(value), 0, ushort.MaxValue);
}
