namespace SensorLab.Reports.Tables;

/// <summary>What a figure is, in a sentence, with the standard that defines it.</summary>
/// <param name="Key">Its name in the sensor profile.</param>
/// <param name="Name">Its name for a reader.</param>
/// <param name="Unit">Its unit; empty for a ratio.</param>
/// <param name="Words">What it is.</param>
/// <param name="Clause">Where it is defined.</param>
internal sealed record FigureDefinition(string Key, string Name, string Unit, string Words, string Clause)
{
    /// <summary>Its anchor in the glossary: one entry serves every criterion of a shadow end at delivery.</summary>
    public string Anchor => "word-" + string.Concat((Key.EndsWith(".atDelivery", StringComparison.Ordinal) ? "at-delivery" : Key).Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToLowerInvariant(c) : '-'));

    /// <summary>Name and unit.</summary>
    public string Title => Unit.Length == 0 ? Name : $"{Name} ({Unit})";

    /// <summary>The definition with its source.</summary>
    public string Full => $"{Words} {Clause}.";
}
