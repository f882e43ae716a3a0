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
    // The columns before a figure's own.
    private const int Addressed = 4;

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
    public IReadOnlyList<(string Profile, FigureAddress Address, Figure Figure)> Figures(FigureChoice choice, IReadOnlyList<string>? profiles = null) => Chosen(
        "value, standard_uncertainty, lower95, upper95, bound, degrees_of_freedom, budget_standard_uncertainty, budget_lower95, budget_upper95, budget_degrees_of_freedom",
        choice,
        profiles,
        (profile, address, row) => (profile, address, ReadFigure(row)));

    /// <summary>What is to be compared of figures, in half the time of the whole of them.</summary>
    /// <param name="choice">Which figures.</param>
    /// <param name="profiles">The profiles' keys.</param>
    /// <returns>In the order of ISOs: the value, null for a bound, and its standard uncertainty as the body's own, 0 where none is known.</returns>
    public IReadOnlyList<(string Profile, FigureAddress Address, double? Value, double StandardUncertainty)> Values(FigureChoice choice, IReadOnlyList<string> profiles) => Chosen(
        "value, coalesce(budget_standard_uncertainty, standard_uncertainty)",
        choice,
        profiles,
        (profile, address, row) => (profile, address, Number(row, Addressed), Number(row, Addressed + 1) ?? 0));

    private IReadOnlyList<T> Chosen<T>(string columns, FigureChoice choice, IReadOnlyList<string>? profiles, Func<string, FigureAddress, DuckDBDataReader, T> read)
    {
        (string words, object?[] values)[] limits =
        [
            choice.Name is { } name
                ? ("(figure = ? or starts_with(figure, ? || '.') or ends_with(figure, '.' || ?))", [name, name, name])
                : ($"figure in ({Places(FigureChoice.WatchedNames.Count)})", [.. FigureChoice.WatchedNames]),
            .. choice.Iso is { } iso ? [("iso = ?", [iso])] : Array.Empty<(string, object?[])>(),
            .. profiles is not null ? [($"profile in ({Places(profiles.Count)})", [.. profiles])] : Array.Empty<(string, object?[])>(),
        ];
        List<(FigureAddress Address, T Row)> rows = file.Ask(
            $"""
            select profile, iso, channel, figure, {columns}
            from iso_figure where {string.Join(" and ", limits.Select(l => l.words))}
            order by iso, figure, channel nulls first, profile
            """,
            row =>
            {
                var address = new FigureAddress(row.GetInt32(1), Text(row, 2), row.GetString(3));
                return (address, read(row.GetString(0), address, row));
            },
            limits.SelectMany(l => l.values));
        return [.. rows.Where(r => choice.Includes(r.Address)).Select(r => r.Row)];
    }

    private static string Places(int count) => string.Join(", ", Enumerable.Repeat("?", count));

    private static Figure ReadFigure(DuckDBDataReader row) => Text(row, Addressed + 4) switch
    {
        "atLeast" => Figure.LowerBound(row.GetDouble(Addressed + 2)),
        "atMost" => Figure.UpperBound(row.GetDouble(Addressed + 3)),
        _ => Figure.Estimate(row.GetDouble(Addressed), row.GetDouble(Addressed + 1), row.GetDouble(Addressed + 2), row.GetDouble(Addressed + 3), Number(row, Addressed + 5)) with
        {
            Budget = row.IsDBNull(Addressed + 6) ? null : new FigureBudget
            {
                StandardUncertainty = row.GetDouble(Addressed + 6),
                Lower95 = row.GetDouble(Addressed + 7),
                Upper95 = row.GetDouble(Addressed + 8),
                DegreesOfFreedom = Number(row, Addressed + 9),
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
