using System.Globalization;
using DuckDB.NET.Data;
using SensorLab.Files;
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
    /// <param name="profiles">The profiles' keys.</param>
    /// <param name="choice">Which figures.</param>
    /// <returns>In the order of ISOs; the value is null for a bound.</returns>
    public IReadOnlyList<(string Profile, FigureAddress Address, double? Value, double? StandardUncertainty)> Figures(IReadOnlyList<string> profiles, FigureChoice choice)
    {
        string places = string.Join(", ", Enumerable.Repeat("?", profiles.Count));
        List<(string, FigureAddress Address, double?, double?)> rows = file.Ask(
            $"""
            select profile, iso, channel, figure, value, coalesce(budget_standard_uncertainty, standard_uncertainty) from iso_figure
            where profile in ({places}){(choice.Iso is null ? string.Empty : " and iso = ?")}
            order by iso, figure, channel nulls first, profile
            """,
            r => (r.GetString(0), new FigureAddress(r.GetInt32(1), Text(r, 2), r.GetString(3)), Number(r, 4), Number(r, 5)),
            [.. profiles, .. choice.Iso is { } iso ? new object?[] { iso } : []]);
        return [.. rows.Where(r => choice.Includes(r.Address))];
    }

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
