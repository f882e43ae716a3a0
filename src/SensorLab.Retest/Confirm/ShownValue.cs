using System.Globalization;
using System.Text.Json.Serialization;
using SensorLab.Profiles;

namespace SensorLab.Retest.Confirm;

/// <summary>A side of a check: a word, or a figure with its interval or as the bound that it is.</summary>
public sealed record ShownValue
{
    private readonly Figure? _figure;

    private ShownValue(string? text, Figure? figure) => (Text, _figure) = (text, figure);

    /// <summary>The word; null for a figure.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Text { get; }

    /// <summary>The number; null for a word and for a bound.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Value => _figure?.Value;

    /// <summary>Its standard uncertainty; null for what is exact.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? StandardUncertainty => _figure?.StandardUncertainty;

    /// <summary>Lower end of the 95 % interval.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Lower95 => _figure?.Lower95;

    /// <summary>Upper end of the 95 % interval.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Upper95 => _figure?.Upper95;

    /// <summary>A lower bound: it is this or more.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? AtLeast => _figure?.AtLeast;

    /// <summary>An upper bound: it is this or less.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? AtMost => _figure?.AtMost;

    /// <summary>A word.</summary>
    /// <param name="text">The word; null where nothing says.</param>
    public static ShownValue Of(string? text) => new(text ?? "unknown", null);

    /// <summary>An exact number.</summary>
    /// <param name="value">The number.</param>
    public static ShownValue Of(double value) => new(null, new Figure { Value = value });

    /// <summary>A figure.</summary>
    /// <param name="figure">The figure.</param>
    public static ShownValue Of(Figure figure) => new(null, figure);

    /// <summary>Its words.</summary>
    public override string ToString() => this switch
    {
        { Text: { } text } => text,
        { AtLeast: { } bound } => string.Create(CultureInfo.InvariantCulture, $"{bound:0.###} or above"),
        { AtMost: { } bound } => string.Create(CultureInfo.InvariantCulture, $"{bound:0.###} or below"),
        { Lower95: { } lower, Upper95: { } upper } => string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} ±{(upper - lower) / 2:0.###}"),
        _ => Value?.ToString("0.###", CultureInfo.InvariantCulture) ?? "unknown",
    };
}
