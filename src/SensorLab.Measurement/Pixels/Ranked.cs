namespace SensorLab.Measurement.Pixels;

/// <summary>Finds the value of a rank without sorting all of them.</summary>
internal static class Ranked
{
    /// <summary>Values that are sorted outright.</summary>
    private const int Few = 32;

    /// <summary>The value of a rank, as it would stand at that place if the values were sorted.</summary>
    /// <param name="values">The values, none of them not a number; left in another order.</param>
    /// <param name="rank">The place, from 0.</param>
    /// <returns>The value; in time that grows with the values' number on average (Hoare's Find).</returns>
    public static double At(Span<double> values, int rank)
    {
        while (values.Length > Few)
        {
            double pivot = MiddleOf(values[0], values[values.Length / 2], values[^1]);
            (int below, int above) = (0, values.Length - 1);
            while (below <= above)
            {
                while (values[below] < pivot)
                {
                    below++;
                }

                while (values[above] > pivot)
                {
                    above--;
                }

                if (below <= above)
                {
                    (values[below], values[above]) = (values[above], values[below]);
                    below++;
                    above--;
                }
            }

            // What lies between the two halves is the pivot.
            if (rank > above && rank < below)
            {
                return pivot;
            }

            int start = rank <= above ? 0 : below;
            values = rank <= above ? values[..(above + 1)] : values[below..];
            rank -= start;
        }

        values.Sort();
        return values[rank];
    }

    private static double MiddleOf(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
