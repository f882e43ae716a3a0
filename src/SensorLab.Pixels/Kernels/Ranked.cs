namespace SensorLab.Pixels.Kernels;

/// <summary>Finds the value of a rank without sorting all of them: natively compiled, the framework's sorting asks a comparer at every step.</summary>
internal static class Ranked
{
    /// <summary>The value of a rank, as it would stand at that place if the values were sorted.</summary>
    /// <param name="values">The values, none of them not a number; left in another order, none before the rank above its value.</param>
    /// <param name="rank">The place, from 0.</param>
    /// <returns>The value; in time that grows with the values' number on average (Hoare's Find).</returns>
    public static double At(Span<double> values, int rank)
    {
        while (values.Length > 1)
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

        return values[rank];
    }

    /// <summary>The median; of an even number of values the mean of the two in the middle.</summary>
    /// <param name="values">One value or more, none of them not a number; left in another order.</param>
    public static double MedianOf(Span<double> values)
    {
        int middle = values.Length / 2;
        double upper = At(values, middle);
        if (values.Length % 2 == 1)
        {
            return upper;
        }

        double lower = values[0];
        foreach (double value in values[1..middle])
        {
            lower = Math.Max(lower, value);
        }

        return (lower + upper) / 2;
    }

    private static double MiddleOf(double a, double b, double c) => Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
}
