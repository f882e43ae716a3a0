using System.Globalization;

namespace SensorLab.Retest;

/// <summary>The largest difference of a figure that does not matter in practice.</summary>
/// <param name="Size">The size, above 0, in its unit; a share for <see cref="MarginUnit.Relative"/>.</param>
/// <param name="Unit">The unit.</param>
public readonly record struct Margin(double Size, MarginUnit Unit)
{
    /// <summary>Reads a margin as users write it: <c>0.1ev</c>, <c>2%</c> or <c>1dn</c>.</summary>
    /// <param name="text">The text; points for decimals, no blank before the unit needed.</param>
    /// <returns>The margin; null where the text is none, or its size is not above 0 and finite.</returns>
    public static Margin? Parse(string text)
    {
        string word = text.Trim().ToLowerInvariant();
        (string ending, MarginUnit unit, double scale)[] units = [("ev", MarginUnit.Ev, 1), ("%", MarginUnit.Relative, 0.01), ("dn", MarginUnit.Dn, 1)];
        foreach ((string ending, MarginUnit unit, double scale) in units)
        {
            if (word.EndsWith(ending, StringComparison.Ordinal)
                && double.TryParse(word[..^ending.Length], NumberStyles.Float, CultureInfo.InvariantCulture, out double size)
                && double.IsFinite(size) && size > 0)
            {
                return new Margin(size * scale, unit);
            }
        }

        return null;
    }
}
