using CsCheck;
using SensorLab.Pixels.Planes;

namespace SensorLab.Pixels.Tests.Planes;

public sealed class BlockWorkspaceTests
{
    /// <summary>Lowest codes: the kernels differ for values of 14, 15 and 16 bits.</summary>
    private static readonly Gen<(int Frames, int Rows, int Columns, int LowestCode, int Seed)> Blocks =
        Gen.Select(Gen.Int[1, 5], Gen.Int[2, 40], Gen.Int[2, 40], Gen.OneOf(Gen.Const(2_000), Gen.Const(20_000), Gen.Const(60_000)), Gen.Int[0, 1_000_000]);

    /// <summary>Squares and products of deviations from row and column means, summed one by one.</summary>
    [Fact]
    public void CentredOf_AnyBlock_IsTheSumOfItsDeviations() => Blocks.Sample(b =>
    {
        const double rounding = 1e-6;
        const int firstColumn = 3;
        var random = new Random(b.Seed);
        PlaneBand[] bands = [.. Enumerable.Range(0, b.Frames).Select(_ => Band(b.Rows, b.Columns + firstColumn, b.LowestCode, random))];
        var workspace = new BlockWorkspace(b.Frames, b.Rows, b.Columns, new double[Math.Max(b.Rows, b.Columns)]);
        workspace.Measure(bands, firstColumn, b.Columns);
        for (int frame = 0; frame < b.Frames; frame++)
        {
            double[,] own = Deviations(b, (y, x) => bands[frame].Row(y)[firstColumn + x]);
            double[,] earlier = Deviations(b, (y, x) => bands.Take(frame).Sum(e => (double)e.Row(y)[firstColumn + x]));
            (double squares, double products) = workspace.CentredOf(frame);
            Assert.Equal(Product(own, own), squares, rounding * (1 + Product(own, own)));
            Assert.Equal(Product(own, earlier), products, rounding * (1 + Product(own, own)) * b.Frames);
        }
    }, iter: 60);

    private static PlaneBand Band(int rows, int width, int lowest, Random random)
    {
        var band = new PlaneBand(rows, width);
        for (int row = 0; row < rows; row++)
        {
            ushort[] values = [.. Enumerable.Range(0, width).Select(_ => (ushort)(lowest + random.Next(500)))];
            band.Close(row, PlaneSplitter.Copy(values, band.Row(row)));
        }

        return band;
    }

    private static double[,] Deviations((int Frames, int Rows, int Columns, int LowestCode, int Seed) b, Func<int, int, double> value)
    {
        double[] rows = [.. Enumerable.Range(0, b.Rows).Select(y => Enumerable.Range(0, b.Columns).Average(x => value(y, x)))];
        double[] columns = [.. Enumerable.Range(0, b.Columns).Select(x => Enumerable.Range(0, b.Rows).Average(y => value(y, x)))];
        double[,] result = new double[b.Rows, b.Columns];
        for (int y = 0; y < b.Rows; y++)
        {
            for (int x = 0; x < b.Columns; x++)
            {
                result[y, x] = value(y, x) - rows[y] - columns[x] + rows.Average();
            }
        }

        return result;
    }

    private static double Product(double[,] a, double[,] b) => a.Cast<double>().Zip(b.Cast<double>(), (x, y) => x * y).Sum();
}
