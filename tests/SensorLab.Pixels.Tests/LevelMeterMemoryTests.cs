using SensorLab.Frames;
using SensorLab.Pixels.Field;
using SensorLab.Sets;

namespace SensorLab.Pixels.Tests;

public sealed class LevelMeterMemoryTests
{
    private const int Width = 512;
    private const int Height = 4096;

    /// <summary>A frame holds 4 MiB of values; what six more frames add is their bands of rows and their profiles.</summary>
    [Fact]
    public void Measure_MoreFrames_HoldsRowsAndNoFrames()
    {
        const long frameBytes = (long)Width * Height * sizeof(ushort);
        long two = AllocatedFor(2);
        long eight = AllocatedFor(8);
        Assert.True((eight - two) / 6 < frameBytes / 4, $"{(eight - two) / 6} bytes a frame");
    }

    private static long AllocatedFor(int count)
    {
        var raw = new RawFrame
        {
            Metadata = new FrameMetadata(),
            Layout = new MosaicLayout
            {
                WidthPixels = Width,
                HeightPixels = Height,
                ActiveArea = new PixelRectangle(0, 0, Width, Height),
                ColourFilterArray = ColourFilterArray.Rggb,
                BitDepth = 16,
            },
        };
        SetFrame[] frames = [.. Enumerable.Range(0, count).Select(i => new SetFrame { File = $"{i}", Raw = raw, ContentKey = (ulong)i })];
        var level = new Level(new LevelKey(100, FrameRole.Dark, 1, null, null, null), frames);
        IMosaicReader[] readers = [.. frames.Select((_, i) => new RampReader(raw, i))];
        MeasurementArea area = MeasurementArea.Of(raw.Layout);
        long before = GC.GetAllocatedBytesForCurrentThread();
        LevelMeter.Measure(level, readers, area, TestContext.Current.CancellationToken);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    /// <summary>Makes its rows up as they are asked for.</summary>
    private sealed class RampReader(RawFrame frame, int offset) : IMosaicReader
    {
        public RawFrame Frame => frame;

        public int PreferredRows => 1;

        public void ReadRows(Span<ushort> rows)
        {
            for (int i = 0; i < rows.Length; i++)
            {
                rows[i] = (ushort)(500 + (i % 7) + offset);
            }
        }

        public void Dispose()
        {
        }
    }
}
