using System.Globalization;

namespace SensorLab.Cli.Arguments;

/// <summary>Reads numbers as users write them: points for decimals, no thousands, nothing infinite.</summary>
internal static class NumberWords
{
    /// <summary>A finite number; fractions such as 1/3 too. Null where the text is none.</summary>
    public static double? Number(string text)
    {
        string[] parts = text.Split('/');
        double? number = parts.Length switch
        {
            1 => Plain(parts[0]),
            2 => Plain(parts[0]) / Plain(parts[1]),
            _ => null,
        };
        return number is { } finite && double.IsFinite(finite) ? number : null;
    }

    /// <summary>An exposure time above zero as cameras show it: 0.008, 1/125, 2", 2 s. Null where the text is none.</summary>
    public static double? Seconds(string text) => Number(text.TrimEnd('s', '"', ' ')) is > 0 and { } seconds ? seconds : null;

    /// <summary>Whole numbers separated by commas; null where one of them is none, or their count is another.</summary>
    public static int[]? WholeNumbers(string text, int? count = null, char separator = ',')
    {
        string[] parts = text.Split(separator);
        var numbers = new int[parts.Length];
        for (int i = 0; i < parts.Length; i++)
        {
            if (!int.TryParse(parts[i], NumberStyles.AllowLeadingSign | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture, out numbers[i]))
            {
                return null;
            }
        }

        return count is null || numbers.Length == count ? numbers : null;
    }

    /// <summary>A size such as 2400x1600, both above zero; null where the text is none.</summary>
    public static (int Width, int Height)? Size(string text) =>
        WholeNumbers(text.ToLowerInvariant().Replace('×', 'x'), 2, 'x') is [> 0, > 0] size ? (size[0], size[1]) : null;

    private static double? Plain(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) ? number : null;
}
