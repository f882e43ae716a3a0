using System.Collections;
using System.Collections.Concurrent;
using System.Text.Json.Serialization.Metadata;
using SensorLab.Files;
using SensorLab.Profiles.Placement;

namespace SensorLab.Profiles.Json;

/// <summary>What a document's types cannot promise by themselves: finite numbers, no nulls in lists, figures that are figures.</summary>
/// <remarks>Walks the serializer's own metadata, so that a property added later is never forgotten.</remarks>
internal static class ProfileCheck
{
    // The serializer's metadata, which does not change, in the form that a walk wants.
    private static readonly ConcurrentDictionary<Type, Looked[]> Types = new();

    /// <summary>The first fault of a sensor profile, in document order; null where there is none.</summary>
    public static DocumentFault? FirstFault(SensorProfile profile)
    {
        DocumentFault? ofFormat = ProfileFormat.Fault(profile.Format, profile.FormatVersion);
        return ofFormat ?? Visit(profile) ?? (profile.IsoProfiles.Count > 0 ? ProfileConsistency.FirstFault(profile) : new DocumentFault("isoProfiles", "is empty"));
    }

    /// <summary>The first fault of a placement answer, in document order; null where there is none.</summary>
    public static DocumentFault? FirstFault(PlacementAnswer answer) => Visit(answer);

    /// <summary>The first fault of a pocket sheet, in document order; null where there is none.</summary>
    public static DocumentFault? FirstFault(PocketSheet sheet) => Visit(sheet);

    // Paths begin at the value, and grow on the way back from a fault: nothing is made of a sound value.
    private static DocumentFault? Visit(object value) => value switch
    {
        double number => double.IsFinite(number) ? null : new DocumentFault(string.Empty, "is not a finite number"),
        FindingSeverity severity => Enum.IsDefined(severity) ? null : new DocumentFault(string.Empty, "is no severity"),
        PocketKinship kinship => Enum.IsDefined(kinship) ? null : new DocumentFault(string.Empty, "is no kinship"),
        string or bool or int or long or DateTimeOffset or IReadOnlyList<long> => null,
        IReadOnlyDictionary<string, double> entries => VisitEntries(entries),
        IReadOnlyList<double> numbers => VisitNumbers(numbers),
        IEnumerable items => VisitItems(items),
        _ => VisitProperties(value) ?? (value is Figure figure ? FigureFault(figure) : null),
    };

    private static DocumentFault? VisitEntries(IReadOnlyDictionary<string, double> entries) =>
        entries.Where(e => !double.IsFinite(e.Value))
            .Select(e => new DocumentFault(e.Key, "is not a finite number"))
            .FirstOrDefault();

    private static DocumentFault? VisitNumbers(IReadOnlyList<double> numbers)
    {
        for (int index = 0; index < numbers.Count; index++)
        {
            if (!double.IsFinite(numbers[index]))
            {
                return new DocumentFault($"[{index}]", "is not a finite number");
            }
        }

        return null;
    }

    private static DocumentFault? VisitItems(IEnumerable items)
    {
        int index = 0;
        foreach (object? item in items)
        {
            DocumentFault? fault = item is null ? new DocumentFault(string.Empty, "is null") : Visit(item);
            if (fault is not null)
            {
                return Within($"[{index}]", fault);
            }

            index++;
        }

        return null;
    }

    private static DocumentFault? VisitProperties(object value)
    {
        foreach (Looked property in PropertiesOf(value.GetType()))
        {
            object? inner = property.Get(value);
            DocumentFault? fault = inner is not null ? Visit(inner)
                : property.IsGetNullable ? null
                : new DocumentFault(string.Empty, "is null");
            if (fault is not null)
            {
                return Within(property.Name, fault);
            }
        }

        return null;
    }

    private static Looked[] PropertiesOf(Type type) => Types.GetOrAdd(type, static type =>
        [.. ProfileJson.Options.GetTypeInfo(type).Properties.Where(p => !IsAlwaysSound(p)).Select(p => new Looked(p.Get!, p.IsGetNullable, p.Name))]);

    // What can be neither null where it must not nor any number that is none.
    private static bool IsAlwaysSound(JsonPropertyInfo property)
    {
        Type type = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
        return type == typeof(int) || type == typeof(long) || type == typeof(bool) || type == typeof(DateTimeOffset) || (type == typeof(string) && property.IsGetNullable);
    }

    private sealed record Looked(Func<object, object?> Get, bool IsGetNullable, string Name);

    private static DocumentFault Within(string place, DocumentFault inner) => inner with
    {
        Path = inner.Path.Length == 0 || inner.Path[0] == '[' ? place + inner.Path : $"{place}.{inner.Path}",
    };

    private static DocumentFault? FigureFault(Figure figure)
    {
        bool isBound = (figure.AtLeast is null) != (figure.AtMost is null);
        bool hasPartOfEstimate = (figure.Value ?? figure.StandardUncertainty ?? figure.Lower95 ?? figure.Upper95 ?? figure.DegreesOfFreedom) is not null;
        if (isBound)
        {
            return hasPartOfEstimate || figure.Budget is not null ? new DocumentFault(string.Empty, "is a bound and an estimate at once") : null;
        }

        if (figure.AtLeast is not null || figure is not { Value: { } value, StandardUncertainty: { } uncertainty, Lower95: { } lower, Upper95: { } upper })
        {
            return new DocumentFault(string.Empty, "is neither an estimate with its interval nor one bound");
        }

        if (figure.Budget is { } budget && (budget.StandardUncertainty < 0 || budget.Lower95 > value || budget.Upper95 < value || budget.DegreesOfFreedom <= 0 || budget.Parts.Any(p => p.StandardUncertainty < 0)))
        {
            return new DocumentFault("budget", "has an interval that does not hold its value, or an uncertainty below 0");
        }

        return uncertainty < 0 || lower > value || upper < value || figure.DegreesOfFreedom <= 0
            ? new DocumentFault(string.Empty, "has an interval that does not hold its value, or an uncertainty below 0")
            : null;
    }
}
