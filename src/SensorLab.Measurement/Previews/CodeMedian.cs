namespace SensorLab.Measurement.Previews;

/// <summary>The middle of a histogram of 8-bit codes.</summary>
public static class CodeMedian
{
    /// <summary>Codes of a channel of 8 bits.</summary>
    public const int Codes = 256;

    /// <summary>
    /// The median, interpolated inside its code as if the values rounded to it lay evenly over it. Any rising tone curve
    /// takes the median of the light to the median of the codes, so that shading and noise do not bend it as they bend a mean.
    /// </summary>
    /// <param name="counts">How often each code occurs, 256 numbers, 0 or more, not all 0.</param>
    /// <returns>0 to 255; on an even field the code itself.</returns>
    /// <exception cref="ArgumentException">There are not 256 numbers, or all are 0.</exception>
    public static double Of(ReadOnlySpan<long> counts)
    {
        long total = 0;
        foreach (long count in counts)
        {
            total += count;
        }

        if (counts.Length != Codes || total <= 0)
        {
            throw new ArgumentException($"A histogram of {Codes} codes with one pixel or more is needed.", nameof(counts));
        }

        long below = 0;
        int code = 0;
        while (2 * (below + counts[code]) < total)
        {
            below += counts[code++];
        }

        double inside = ((0.5 * total) - below) / counts[code];
        return Math.Clamp(code - 0.5 + inside, 0, Codes - 1);
    }
}
