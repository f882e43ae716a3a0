using System.Runtime.CompilerServices;

namespace SensorLab.Simulation.Draws;

/// <summary>Alias tables of Poisson's distribution for a grid of means: 64 an octave, from 1/16 to 256.</summary>
/// <remarks>
/// Walker, ACM TOMS 3 (1977); tables filled as by Vose, IEEE TSE 17 (1991). The grid is that of doubles cut to six bits
/// of mantissa, so that a mean finds its table without arithmetic. Counts of probability below 10⁻¹⁸ are left out: they are
/// under the spacing of the random numbers.
/// </remarks>
internal static class PoissonTables
{
    /// <summary>The smallest mean of the grid.</summary>
    public const double Smallest = 1.0 / 16;

    /// <summary>Where the grid ends.</summary>
    public const double End = 256;

    private const int CutBits = 52 - 6;
    private const double Negligible = 1e-18;
    private const double UnitFrom53Bits = 1.0 / (1L << 53);

    private static readonly long FirstKey = BitConverter.DoubleToInt64Bits(Smallest) >> CutBits;
    private static readonly Table[] Tables = Build();

    /// <summary>Draws a count for the grid's mean at or just below a mean.</summary>
    /// <param name="stream">Where the random numbers come from.</param>
    /// <param name="mean"><see cref="Smallest"/> to below <see cref="End"/>.</param>
    /// <param name="rest">What the mean exceeds the grid's by, below 1/64 of it.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Next(ref RandomStream stream, double mean, out double rest)
    {
        long key = BitConverter.DoubleToInt64Bits(mean) >> CutBits;
        rest = mean - BitConverter.Int64BitsToDouble(key << CutBits);
        Table table = Tables[key - FirstKey];
        ulong at = Math.BigMul(stream.NextBits(), (ulong)table.Kept.Length, out ulong fraction);
        int index = (int)at;
        return (fraction >> 11) * UnitFrom53Bits < table.Kept[index] ? table.First + index : table.Alias[index];
    }

    private static Table[] Build()
    {
        long lastKey = BitConverter.DoubleToInt64Bits(End) >> CutBits;
        var tables = new Table[lastKey - FirstKey];
        for (int i = 0; i < tables.Length; i++)
        {
            tables[i] = Table.For(BitConverter.Int64BitsToDouble((FirstKey + i) << CutBits));
        }

        return tables;
    }

    private sealed record Table(int First, double[] Kept, ushort[] Alias)
    {
        public static Table For(double mean)
        {
            (int first, List<double> scaled) = Probabilities(mean);
            var kept = new double[scaled.Count];
            var alias = new ushort[scaled.Count];
            var small = new Stack<int>();
            var large = new Stack<int>();
            for (int i = 0; i < scaled.Count; i++)
            {
                (scaled[i] < 1 ? small : large).Push(i);
            }

            while (small.Count > 0 && large.Count > 0)
            {
                int poor = small.Pop();
                int rich = large.Pop();
                kept[poor] = scaled[poor];
                alias[poor] = (ushort)(first + rich);
                scaled[rich] -= 1 - scaled[poor];
                (scaled[rich] < 1 ? small : large).Push(rich);
            }

            // What is left is 1 but for rounding.
            foreach (int i in small.Concat(large))
            {
                kept[i] = 1;
                alias[i] = (ushort)(first + i);
            }

            return new Table(first, kept, alias);
        }

        // Probabilities times their number, from the mode outwards so that none underflows.
        private static (int First, List<double> Scaled) Probabilities(double mean)
        {
            int mode = (int)mean;
            double atMode = Math.Exp((mode * Math.Log(mean)) - mean - LogFactorial(mode));
            var down = new List<double>();
            double p = atMode;
            for (int k = mode; k > 0 && p > Negligible; k--)
            {
                p *= k / mean;
                down.Add(p);
            }

            down.Reverse();
            int first = mode - down.Count;
            p = atMode;
            for (int k = mode; p > Negligible; k++)
            {
                down.Add(p);
                p *= mean / (k + 1);
            }

            double sum = down.Sum();
            return (first, [.. down.Select(value => value * down.Count / sum)]);
        }

        private static double LogFactorial(int n)
        {
            double sum = 0;
            for (int i = 2; i <= n; i++)
            {
                sum += Math.Log(i);
            }

            return sum;
        }
    }
}
