namespace SensorLab.Files;

/// <summary>What a schema says of one value and of all within it, as it is written.</summary>
internal sealed class SchemaRule
{
    /// <summary>Whether no value may stand here.</summary>
    public bool IsForbidden { get; set; }

    /// <summary>Limits on the value itself.</summary>
    public List<SchemaLimit> Limits { get; } = [];

    /// <summary>Rules that hold besides.</summary>
    public List<SchemaRule> Also { get; } = [];

    /// <summary>Rules of which one must hold; empty where there are none.</summary>
    public List<SchemaRule> AnyOf { get; } = [];

    /// <summary>Rules that hold where another does, or where it does not.</summary>
    public List<(SchemaRule If, SchemaRule? Then, SchemaRule? Else)> Conditions { get; } = [];

    /// <summary>The rules of an object's properties.</summary>
    public Dictionary<string, SchemaRule> Properties { get; } = new(StringComparer.Ordinal);

    /// <summary>The rule of properties that are not named; null where they are free.</summary>
    public SchemaRule? FurtherProperties { get; set; }

    /// <summary>The rule of properties' names; null where they are free.</summary>
    public SchemaRule? PropertyNames { get; set; }

    /// <summary>The rule of a list's entries; null where they are free.</summary>
    public SchemaRule? Items { get; set; }
}
