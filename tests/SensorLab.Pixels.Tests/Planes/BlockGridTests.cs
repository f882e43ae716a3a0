using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Tests.Planes;

/// <summary>Blocks of nearly equal size cover a plane without a rest.</summary>
public sealed class BlockGridTests
{
    /// <summary>A side of 32 sites, of 64 from a million sites on, of 16 where a repeat holds sites far apart.</summary>
    [Theory]
    [InlineData(960, 640, 2, 32)]
    [InlineData(1024, 976, 2, 32)]
    [InlineData(1024, 977, 2, 64)]
    [InlineData(3072, 2048, 2, 64)]
    [InlineData(320, 192, 6, 16)]
    [InlineData(320, 347, 6, 16)]
    [InlineData(320, 348, 6, 64)]
    public void Blocks_OfAPlane_AimAtASide(int width, int height, int repeat, int side)
    {
        BlockGrid grid = new(width, height, repeat);

        Assert.Equal(width / side, grid.BlockColumns);
        Assert.Equal((height + (side / 2)) / side, grid.BlockRows);
        Assert.InRange(grid.TallestBlock, 1, 2 * side);
        Assert.Equal((long)width * height, Enumerable.Range(0, grid.Count).Sum(b => (long)grid.RowsOf(b / grid.BlockColumns) * grid.ColumnsOf(b % grid.BlockColumns)));
        Assert.Equal((grid.RowsOf(0) - 1L) * (grid.ColumnsOf(0) - 1), grid.DegreesOfFreedomOf(0));
    }
}
