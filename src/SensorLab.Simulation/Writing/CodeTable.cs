namespace SensorLab.Simulation.Writing;

/// <summary>The way back through a linearisation table.</summary>
internal static class CodeTable
{
    /// <summary>The entry nearest to a code.</summary>
    /// <param name="table">Linear codes, ascending.</param>
    /// <param name="code">A linear code.</param>
    public static int NearestIndex(ushort[] table, ushort code)
    {
        int at = Array.BinarySearch(table, code);
        if (at >= 0)
        {
            return at;
        }

        int above = Math.Min(~at, table.Length - 1);
        int below = Math.Max(above - 1, 0);
        return code - table[below] < table[above] - code ? below : above;
    }

    /// <summary>What a file stores for linear codes.</summary>
    public static ushort[] Stored(ReadOnlySpan<ushort> codes, ushort[] table)
    {
        var stored = new ushort[codes.Length];
        for (int i = 0; i < stored.Length; i++)
        {
            stored[i] = (ushort)NearestIndex(table, codes[i]);
        }

        return stored;
    }
}
