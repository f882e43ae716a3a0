using System.Globalization;
using DuckDB.NET.Data;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Retest;
using SensorLab.Shelf.History;

namespace SensorLab.Shelf.Store;

/// <summary>What the index is asked; none of it opens the rows of levels.</summary>
internal sealed class IndexReader(IndexFile file)
{
    private const string Profiles = """
        select p.profile, p.body, b.maker, b.model, b.serial_number, p.firmware, epoch_ms(p.created_utc),
          p.bit_depth, p.compression, p.shutter, p.drive, p.noise_reduction, p.crop, p.isos, p.warnings + p.refusals, p.software_name, p.software_version
        from profile p join body b on b.body = p.body
        """;

    /// <summary>The keys of all profiles.</summary>
    public HashSet<string> Keys() => [.. file.Ask("select profile from profile", r => r.GetString(0))];

    /// <summary>All profiles, a body's in the order of time, bodies by their names.</summary>
    public IReadOnlyList<ShelvedProfile> All() =>
    [
        .. file.Ask(Profiles, ReadProfile)
            .OrderBy(p => p.Body.Name, StringComparer.OrdinalIgnoreCase).ThenBy(p => p.Body.Id, StringComparer.Ordinal)
            .ThenBy(p => p, ShelvedProfile.ByTime),
    ];

    /// <summary>Figures of profiles.</summary>
    /// <param name="choice">Which figures.</param>
    /// <param name="profiles">The profiles' keys; without them all.</param>
    /// <returns>In the order of ISOs. A budget is there without its parts.</returns>
    public IReadOnlyList<(string Profile, FigureAddress Address, Figure Figure)> Figures(FigureChoice choice, IReadOnlyList<string>? profiles = null)
    {
        (string words, object?[] values)[] limits =
        [
            choice.Name is { } name
                ? ("(figure = ? or starts_with(figure, ? || '.') or ends_with(figure, '.' || ?))", [name, name, name])
                : ($"figure in ({Places(FigureChoice.WatchedNames.Count)})", [.. FigureChoice.WatchedNames]),
            .. choice.Iso is { } iso ? [("iso = ?", [iso])] : Array.Empty<(string, object?[])>(),
            .. profiles is not null ? [($"profile in ({Places(profiles.Count)})", [.. profiles])] : Array.Empty<(string, object?[])>(),
        ];
        List<(string, FigureAddress Address, Figure)> rows = file.Ask(
            $"""
            select profile, iso, channel, figure, value, standard_uncertainty, lower95, upper95, bound, degrees_of_freedom,
              budget_standard_uncertainty, budget_lower95, budget_upper95, budget_degrees_of_freedom
            from iso_figure where {string.Join(" and ", limits.Select(l => l.words))}
            order by iso, figure, channel nulls first, profile
            """,
            r => (r.GetString(0), new FigureAddress(r.GetInt32(1), Text(r, 2), r.GetString(3)), ReadFigure(r)),
            limits.SelectMany(l => l.values));
        return [.. rows.Where(r => choice.Includes(r.Address))];
    }

    private static string Places(int count) => string.Join(", ", Enumerable.Repeat("?", count));

    private static Figure ReadFigure(DuckDBDataReader row) => Text(row, 8) switch
    {
        "atLeast" => Figure.LowerBound(row.GetDouble(6)),
        "atMost" => Figure.UpperBound(row.GetDouble(7)),
        _ => Figure.Estimate(row.GetDouble(4), row.GetDouble(5), row.GetDouble(6), row.GetDouble(7), Number(row, 9)) with
        {
            Budget = row.IsDBNull(10) ? null : new FigureBudget
            {
                StandardUncertainty = row.GetDouble(10),
                Lower95 = row.GetDouble(11),
                Upper95 = row.GetDouble(12),
                DegreesOfFreedom = Number(row, 13),
                Parts = [],
            },
        },
    };

    private static double? Number(DuckDBDataReader row, int column) => row.IsDBNull(column) ? null : row.GetDouble(column);

    private static ShelvedProfile ReadProfile(DuckDBDataReader row) => new(
        row.GetString(0),
        new ShelfBody(row.GetString(1), Text(row, 2), Text(row, 3), Text(row, 4)),
        Text(row, 5),
        row.IsDBNull(6) ? null : DateTimeOffset.FromUnixTimeMilliseconds(row.GetInt64(6)),
        ModeOf(row),
        [.. row.GetString(13).Split(',', StringSplitOptions.RemoveEmptyEntries).Select(iso => int.Parse(iso, CultureInfo.InvariantCulture))],
        row.GetInt32(14),
        $"{row.GetString(15)} {row.GetString(16)}");

    private static string ModeOf(DuckDBDataReader row)
    {
        string?[] parts = [row.IsDBNull(7) ? null : string.Create(CultureInfo.InvariantCulture, $"{row.GetInt32(7)} bits"), .. Enumerable.Range(8, 5).Select(i => Text(row, i))];
        return ForeignText.OneLine(string.Join(", ", parts.Where(p => !string.IsNullOrEmpty(p))));
    }

    private static string? Text(DuckDBDataReader row, int column) => row.IsDBNull(column) ? null : row.GetString(column);
}
