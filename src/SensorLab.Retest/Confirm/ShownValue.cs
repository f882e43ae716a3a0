using System.Globalization;
using System.Text.Json.Serialization;
using SensorLab.Profiles;

namespace SensorLab.Retest.Confirm;

/// <summary>A side of a check: a word, or a number with its 95 % interval.</summary>
public sealed record ShownValue
{
    /// <summary>The word; null for a number.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Text { get; init; }

    /// <summary>The number; null for a word.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Value { get; init; }

    /// <summary>Its standard uncertainty; null for a word, and for what is exact.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? StandardUncertainty { get; init; }

    /// <summary>A word.</summary>
    /// <param name="text">The word; null where nothing says.</param>
    public static ShownValue Of(string? text) => new() { Text = text ?? "unknown" };

    /// <summary>A number.</summary>
    /// <param name="value">The number; null where there is none.</param>
    /// <param name="standardUncertainty">Its standard uncertainty; null for what is exact.</param>
    public static ShownValue Of(double? value, double? standardUncertainty = null) => value is { } number ? new() { Value = number, StandardUncertainty = standardUncertainty } : Of((string?)null);

    /// <summary>A figure.</summary>
    /// <param name="figure">The figure.</param>
    public static ShownValue Of(Figure figure) => Of(figure.Value ?? figure.AtLeast ?? figure.AtMost, figure.StandardUncertainty);

    /// <summary>Its words.</summary>
    public override string ToString() => Text ?? (StandardUncertainty is { } u
        ? string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} ±{Figure.NormalFactor95 * u:0.###}")
        : Value?.ToString("0.###", CultureInfo.InvariantCulture)) ?? "unknown";
}
