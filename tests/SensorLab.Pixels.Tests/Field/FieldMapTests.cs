using SensorLab.Frames;
using SensorLab.Pixels.Field;

namespace SensorLab.Pixels.Tests.Field;

/// <summary>A frame's coarse picture: cells of whole repeats over all of it.</summary>
public sealed class FieldMapTests
{
    [Theory]
    [InlineData("RGGB")]
    [InlineData("monochrome")]
    [InlineData(Patterns.SixBySixName)]
    [InlineData(Patterns.QuadName)]
    [InlineData("8x8:RRGGRRGGRRGGRRGGGGBBGGBBGGBBGGBBRRGGRRGGRRGGRRGGGGBBGGBBGGBBGGBB")]
    public void Of_FrameOfAnySize_LeavesLessThanACellOut(string filters)
    {
        ColourFilterArray array = ColourFilterArray.FromName(filters)!.Value;
        foreach (int side in (int[])[8, 24, 50, 96, 100, 160, 240, 383, 600, 1000, 1201, 2048])
        {
            var meter = new FieldMapMeter(new PixelRectangle(0, 0, side, side), array);
            FieldMap map = meter.ToMap();
            int repeat = Math.Max(2, Math.Max(array.Rows, array.Columns));

            Assert.InRange(side - (map.Columns * map.CellWidth), 0, map.CellWidth + repeat - 1);
            Assert.InRange(side - meter.RowsCovered, 0, map.CellHeight + repeat - 1);
            Assert.Equal(0, map.CellWidth % Math.Max(2, array.Columns));
            Assert.InRange(map.Columns, 1, 48);
            Assert.InRange(map.Rows, 1, 32);
        }
    }

    /// <summary>
    /// Rows of 3 DN beside cells of 1 DN. Of 30 second differences of the rows the median tells a deviation to a fifth, of which two
    /// are allowed; a row's mean of 48 cells has 0.14 DN of its own, which the fit may leave.
    /// </summary>
    [Theory]
    [InlineData(3)]
    [InlineData(0)]
    public void RowNoiseDn_OfRowsAndCells_IsTheRows(double rowDn)
    {
        var random = new Random(3);
        double[] means = new double[32 * 48];
        for (int row = 0; row < 32; row++)
        {
            double own = 500 + (0.5 * row) + MathNet.Numerics.Distributions.Normal.Sample(random, 0, rowDn);
            for (int column = 0; column < 48; column++)
            {
                means[(row * 48) + column] = MathNet.Numerics.Distributions.Normal.Sample(random, own, 1);
            }
        }

        var map = new FieldMap(48, 32, (8, 8), means);

        Assert.InRange(map.NoiseDn, 0.9, 1.1);
        Assert.InRange(map.RowNoiseDn, 0.6 * rowDn, (1.4 * rowDn) + 0.2);
    }
}
