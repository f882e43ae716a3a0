namespace SensorLab.Simulation.Writing;

/// <summary>A fraction as TIFF holds it.</summary>
/// <param name="Numerator">Numerator; negative in signed fields only.</param>
/// <param name="Denominator">Denominator, above 0.</param>
internal readonly record struct Rational(long Numerator, long Denominator)
{
    /// <summary>A whole number.</summary>
    public static Rational Whole(long value) => new(value, 1);

    /// <summary>A number as the fraction that holds most of its digits: 1/n where it is one, else over a power of ten.</summary>
    /// <param name="value">0 to 4 × 10⁹.</param>
    public static Rational Of(double value)
    {
        if (value > 0 && value < 1)
        {
            double inverse = Math.Round(1 / value);
            if (inverse < uint.MaxValue && Math.Abs((1 / value) - inverse) < 1e-9 * inverse)
            {
                return new Rational(1, (long)inverse);
            }
        }

        long denominator = 1_000_000_000;
        while (value * denominator >= uint.MaxValue)
        {
            denominator /= 10;
        }

        return Reduced((long)Math.Round(value * denominator), denominator);
    }

    /// <summary>A number with sign over ten thousand.</summary>
    public static Rational Signed(double value) => new((long)Math.Round(value * 10_000), 10_000);

    private static Rational Reduced(long numerator, long denominator)
    {
        long a = numerator;
        long b = denominator;
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        return new Rational(numerator / a, denominator / a);
    }
}
