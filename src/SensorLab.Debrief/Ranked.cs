namespace SensorLab.Debrief;

/// <summary>One value of many by its rank, without putting the others in order (Hoare's selection).</summary>
internal static class Ranked
{
    /// <summary>The value.</summary>
    /// <param name="values">The values, none of them NaN; put into another order.</param>
    /// <param name="rank">How many are smaller or come first, from 0.</param>
    public static float Of(float[] values, int rank)
    {
        (int first, int last) = (0, values.Length - 1);
        while (first < last)
        {
            float pivot = values[(first + last) / 2];
            (int low, int high) = (first, last);
            while (low <= high)
            {
                while (values[low] < pivot)
                {
                    low++;
                }

                while (values[high] > pivot)
                {
                    high--;
                }

                if (low <= high)
                {
                    (values[low], values[high]) = (values[high], values[low]);
                    low++;
                    high--;
                }
            }

            if (rank <= high)
            {
                last = high;
            }
            else if (rank >= low)
            {
                first = low;
            }
            else
            {
                return values[rank];
            }
        }

        return values[rank];
    }
}
