using System.Collections;
using System.Text.Json.Serialization.Metadata;
using SensorLab.Files;
using SensorLab.Profiles.Placement;

namespace SensorLab.Profiles.Json;

/// <summary>What a document's types cannot promise by themselves: finite numbers, no nulls in lists, figures that are figures.</summary>
/// <remarks>Walks the serializer's own metadata, so that a property added later is never forgotten.</remarks>
internal static class ProfileCheck
{
    /// <summary>The first fault of a sensor profile, in document order; null where there is none.</summary>
    public static DocumentFault? FirstFault(SensorProfile profile)
    {
        DocumentFault? ofFormat = ProfileFormat.Fault(profile.Format, profile.FormatVersion);
        return ofFormat ?? Visit(profile, string.Empty) ?? (profile.IsoProfiles.Count > 0 ? ProfileConsistency.FirstFault(profile) : new DocumentFault("isoProfiles", "is empty"));
    }

    /// <summary>The first fault of a placement answer, in document order; null where there is none.</summary>
    public static DocumentFault? FirstFault(PlacementAnswer answer) => Visit(answer, string.Empty);

    /// <summary>The first fault of a pocket sheet, in document order; null where there is none.</summary>
    public static DocumentFault? FirstFault(PocketSheet sheet) => Visit(sheet, string.Empty);

    private static DocumentFault? Visit(object value, string path) => value switch
    {
        double number => double.IsFinite(number) ? null : new DocumentFault(path, "is not a finite number"),
        FindingSeverity severity => Enum.IsDefined(severity) ? null : new DocumentFault(path, "is no severity"),
        PocketKinship kinship => Enum.IsDefined(kinship) ? null : new DocumentFault(path, "is no kinship"),
        string or bool or int or long or DateTimeOffset or IReadOnlyList<long> => null,
        IReadOnlyDictionary<string, double> entries => VisitEntries(entries, path),
        IEnumerable items => VisitItems(items, path),
        _ => VisitProperties(value, path) ?? (value is Figure figure ? FigureFault(figure, path) : null),
    };

    private static DocumentFault? VisitEntries(IReadOnlyDictionary<string, double> entries, string path) =>
        entries.Where(e => !double.IsFinite(e.Value))
            .Select(e => new DocumentFault($"{path}.{e.Key}", "is not a finite number"))
            .FirstOrDefault();

    private static DocumentFault? VisitItems(IEnumerable items, string path)
    {
        int index = 0;
        foreach (object? item in items)
        {
            string at = $"{path}[{index}]";
            DocumentFault? fault = item is null ? new DocumentFault(at, "is null") : Visit(item, at);
            if (fault is not null)
            {
                return fault;
            }

            index++;
        }

        return null;
    }

    private static DocumentFault? VisitProperties(object value, string path)
    {
        JsonTypeInfo metadata = ProfileJson.Options.GetTypeInfo(value.GetType());
        foreach (JsonPropertyInfo property in metadata.Properties)
        {
            string at = path.Length == 0 ? property.Name : $"{path}.{property.Name}";
            object? inner = property.Get!(value);
            DocumentFault? fault = inner is not null ? Visit(inner, at)
                : property.IsGetNullable ? null
                : new DocumentFault(at, "is null");
            if (fault is not null)
            {
                return fault;
            }
        }

        return null;
    }

    private static DocumentFault? FigureFault(Figure figure, string path)
    {
        bool isBound = (figure.AtLeast is null) != (figure.AtMost is null);
        bool hasPartOfEstimate = (figure.Value ?? figure.StandardUncertainty ?? figure.Lower95 ?? figure.Upper95 ?? figure.DegreesOfFreedom) is not null;
        if (isBound)
        {
            return hasPartOfEstimate || figure.Budget is not null ? new DocumentFault(path, "is a bound and an estimate at once") : null;
        }

        if (figure.AtLeast is not null || figure is not { Value: { } value, StandardUncertainty: { } uncertainty, Lower95: { } lower, Upper95: { } upper })
        {
            return new DocumentFault(path, "is neither an estimate with its interval nor one bound");
        }

        if (figure.Budget is { } budget && (budget.StandardUncertainty < 0 || budget.Lower95 > value || budget.Upper95 < value || budget.DegreesOfFreedom <= 0 || budget.Parts.Any(p => p.StandardUncertainty < 0)))
        {
            return new DocumentFault($"{path}.budget", "has an interval that does not hold its value, or an uncertainty below 0");
        }

        return uncertainty < 0 || lower > value || upper < value || figure.DegreesOfFreedom <= 0
            ? new DocumentFault(path, "has an interval that does not hold its value, or an uncertainty below 0")
            : null;
    }
}
