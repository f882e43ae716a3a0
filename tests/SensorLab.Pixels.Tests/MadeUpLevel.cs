using SensorLab.Frames;
using SensorLab.Pixels.Defects;
using SensorLab.Pixels.Field;
using SensorLab.Sets;
using SensorLab.Simulation;

namespace SensorLab.Pixels.Tests;

/// <summary>A level whose pixels the test holds.</summary>
internal static class MadeUpLevel
{
    public static LevelStatistics Measure(
        IReadOnlyList<ushort[]> frames,
        int width,
        ColourFilterArray array,
        FrameRole role = FrameRole.Bracket,
        PixelRectangle? region = null,
        double blackDn = 0,
        IReadOnlyList<DeadLine>? deadLines = null)
    {
        RawFrame raw = Frame(frames[0].Length / width, width, array, blackDn);
        SetFrame[] setFrames = [.. frames.Select((_, i) => new SetFrame { File = $"{i}", Raw = raw, ContentKey = (ulong)i })];
        var level = new Level(new LevelKey(100, role, 1, null, null, null), setFrames);
        return Measure(level, frames, MeasurementArea.Of(raw.Layout, region) with { DeadLines = deadLines ?? [] });
    }

    /// <summary>Measures a level that the test made up, too.</summary>
    public static LevelStatistics Measure(Level level, IReadOnlyList<ushort[]> frames, MeasurementArea area) =>
        LevelMeter.Measure(level, [.. frames.Zip(level.Frames, (codes, f) => new SimulatedMosaicReader(f.Raw, codes))], area);

    /// <summary>A frame of 16 bits without metadata.</summary>
    public static RawFrame Frame(int height, int width, ColourFilterArray array, double blackDn = 0) => new()
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

    /// <summary>A channel's planes of a frame, one for each of its places in the repeat: rows × columns.</summary>
    public static double[][,] Planes(ushort[] frame, int width, ColourFilterArray array, SensorChannel channel, PixelRectangle region)
    {
        List<double[,]> planes = [];
        for (int place = 0; place < array.Rows * array.Columns; place++)
        {
            (int top, int left) = (place / array.Columns, place % array.Columns);
            if (array.ChannelAt(region.Y + top, region.X + left) != channel)
            {
                continue;
            }

            double[,] plane = new double[region.Height / array.Rows, region.Width / array.Columns];
            for (int y = 0; y < plane.GetLength(0); y++)
            {
                for (int x = 0; x < plane.GetLength(1); x++)
                {
                    plane[y, x] = frame[((region.Y + top + (y * array.Rows)) * width) + region.X + left + (x * array.Columns)];
                }
            }

            planes.Add(plane);
        }

        return [.. planes];
    }
}
