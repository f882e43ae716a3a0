using SensorLab.Frames;
using SensorLab.Measurement.Field;
using SensorLab.Measurement.Pixels;
using SensorLab.Measurement.Sets;
using SensorLab.Simulation;

namespace SensorLab.Measurement.Tests.Pixels;

/// <summary>A level whose pixels the test holds.</summary>
internal static class MadeUpLevel
{
    public static LevelStatistics Measure(
        IReadOnlyList<ushort[]> frames,
        int width,
        ColourFilterArray array,
        FrameRole role = FrameRole.Bracket,
        PixelRectangle? region = null,
        double blackDn = 0)
    {
        int height = frames[0].Length / width;
        var raw = new RawFrame
        {
            Metadata = new FrameMetadata(),
            Layout = new MosaicLayout
            {
                WidthPixels = width,
                HeightPixels = height,
                ActiveArea = new PixelRectangle(0, 0, width, height),
                ColourFilterArray = array,
                BitDepth = 16,
            },
            Declared = new DeclaredLevels { BlackDn = array.Channels.ToDictionary(c => c, _ => blackDn) },
        };
        SetFrame[] setFrames = [.. frames.Select((_, i) => new SetFrame { File = $"{i}", Raw = raw, ContentKey = (ulong)i })];
        var level = new Level(new LevelKey(100, role, 1, null, null, null), setFrames);
        return LevelMeter.Measure(level, [.. frames.Select(f => new SimulatedMosaicReader(raw, f))], MeasurementArea.Of(raw.Layout, region));
    }

    /// <summary>A channel's plane of a frame: rows × columns.</summary>
    public static double[,] Plane(ushort[] frame, int width, ColourFilterArray array, SensorChannel channel, PixelRectangle region)
    {
        int period = array.Period;
        double[,] plane = new double[region.Height / period, region.Width / period];
        for (int y = region.Y; y < region.Bottom; y++)
        {
            for (int x = region.X; x < region.Right; x++)
            {
                if (array.ChannelAt(y, x) == channel)
                {
                    plane[(y - region.Y) / period, (x - region.X) / period] = frame[(y * width) + x];
                }
            }
        }

        return plane;
    }
}
