using System.Globalization;
using MetadataExtractor;
using Directory = MetadataExtractor.Directory;
using Number = SensorLab.RawFiles.Metadata.MetadataTags.Boxed;

namespace SensorLab.RawFiles.Metadata;

/// <summary>Ways to read one tag; each gives null where the tag says nothing.</summary>
internal static class TagValues
{
    /// <summary>Longer texts are cut: no body's name takes as much.</summary>
    public const int LongestTextCharacters = 128;

    private const string UnknownDescription = "Unknown";

    /// <summary>A text without NULs, control characters and blanks at its ends.</summary>
    public static string? Text(Directory directory, int tag) => Clean(directory.GetString(tag));

    /// <summary>What a value means, as far as its meaning is known.</summary>
    public static string? Meaning(Directory directory, int tag)
    {
        string? meaning = Clean(directory.GetDescription(tag));
        bool isKnown = meaning is not null && meaning != "N/A" && meaning != "n/a" &&
            !meaning.Contains(UnknownDescription, StringComparison.OrdinalIgnoreCase) && !meaning.All(c => char.IsDigit(c) || c is ' ' or '-');
        return isKnown ? meaning : null;
    }

    /// <summary>What a value means, else the tag's name and the value: two settings stay apart even unnamed.</summary>
    public static string? MeaningOrNumber(Directory directory, int tag) =>
        Meaning(directory, tag) ?? (directory.TryGetInt32(tag, out int value) ? string.Create(CultureInfo.InvariantCulture, $"{directory.GetTagName(tag)} {value}") : null);

    /// <summary>A named value out of a table.</summary>
    /// <param name="names">Names by value.</param>
    public static Func<Directory, int, string?> Named(params (int Value, string Name)[] names)
    {
        Dictionary<int, string> byValue = names.ToDictionary(n => n.Value, n => n.Name);
        return (directory, tag) => directory.TryGetInt32(tag, out int value) ? byValue.GetValueOrDefault(value) : null;
    }

    /// <summary>A whole number in a range; of several values the last one.</summary>
    /// <param name="lowest">Lowest value that means something.</param>
    /// <param name="highest">Highest value that means something.</param>
    public static Func<Directory, int, Number?> Whole(int lowest, int highest) => (directory, tag) =>
        LastInteger(directory, tag) is long value && value >= lowest && value <= highest ? new Number(value) : null;

    /// <summary>A rational, exactly divided, in a range.</summary>
    /// <param name="lowest">Lowest value that means something.</param>
    /// <param name="highest">Highest value that means something.</param>
    public static Func<Directory, int, Number?> Ratio(double lowest, double highest) => (directory, tag) =>
        Quotient(directory, tag) is double value && value >= lowest && value <= highest ? new Number(value) : null;

    /// <summary>A rational as a number; null for a denominator of 0.</summary>
    public static double? Quotient(Directory directory, int tag) => directory.GetObject(tag) switch
    {
        Rational { Denominator: not 0 } rational => rational.Numerator / (double)rational.Denominator,
        Rational => null,
        float or double or byte or ushort or short or uint or int => Convert.ToDouble(directory.GetObject(tag), CultureInfo.InvariantCulture),
        _ => null,
    };

    /// <summary>A text without what a text should not hold.</summary>
    /// <param name="text">Anything.</param>
    /// <returns>At most <see cref="LongestTextCharacters"/> characters; null where nothing is left.</returns>
    public static string? Clean(string? text)
    {
        if (text is null)
        {
            return null;
        }

        int end = text.IndexOf('\0', StringComparison.Ordinal);
        ReadOnlySpan<char> all = end < 0 ? text : text.AsSpan(0, end);
        string printable = string.Concat(all.ToString().Where(c => !char.IsControl(c) && !char.IsSurrogate(c)).Take(LongestTextCharacters)).Trim();
        return printable.Length == 0 ? null : printable;
    }

    private static long? LastInteger(Directory directory, int tag) => directory.GetObject(tag) switch
    {
        ushort[] { Length: > 0 } values => values[^1],
        uint[] { Length: > 0 } values => values[^1],
        byte or ushort or short or uint or int => Convert.ToInt64(directory.GetObject(tag), CultureInfo.InvariantCulture),
        _ => null,
    };
}
