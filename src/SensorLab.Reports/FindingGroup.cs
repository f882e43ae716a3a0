using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Reports;

/// <summary>One flaw wherever it was found: findings of one code and weight as one entry.</summary>
/// <remarks>What page, paper and terminal show; documents keep every finding by itself.</remarks>
public sealed class FindingGroup
{
    // A stop has two digits at most that anyone can use.
    private const double LeastStops = 0.005;
    private const double ShadowEndSnr = 10;
    private const int MostIsosNamed = 4;

    private readonly FindingCause? _cause;

    private FindingGroup(IReadOnlyList<Finding> findings, SensorProfile? profile)
    {
        Findings = findings;
        Worst = findings.MaxBy(f => Math.Abs(f.Size ?? 0))!;
        Isos = findings.Any(f => f.Iso is null) ? [] : [.. findings.Select(f => f.Iso!.Value).Distinct().Order()];
        _cause = FindingCause.Of(Worst.Code);
        IsCompensated = FindingCause.IsCompensated(Worst);
        Stops = IsCompensated || profile is null ? null : StopsOf(profile);
        Effect = EffectOf(profile);
    }

    /// <summary>The findings, in the profile's order; all of one code and severity.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The one of the largest size.</summary>
    public Finding Worst { get; }

    /// <summary>The code.</summary>
    public string Code => ForeignText.OneLine(Worst.Code);

    /// <summary>How much it weighs.</summary>
    public FindingSeverity Severity => Findings[0].Severity;

    /// <summary>Whether the figures are free of it.</summary>
    public bool IsCompensated { get; }

    /// <summary>The ISOs that it was found at, rising; empty for the whole set.</summary>
    public IReadOnlyList<int> Isos { get; }

    /// <summary>By how many stops it can move an end, roughly; null where that cannot be said, or nothing is left of it.</summary>
    public double? Stops { get; }

    /// <summary>What it does to the figures, in a sentence; empty where no profile is at hand to tell it.</summary>
    public string Effect { get; }

    /// <summary>The flaw in a few words.</summary>
    public string What => _cause?.What ?? ForeignText.OneLine(Worst.Message);

    /// <summary>The one thing to do about it.</summary>
    public string Remedy => ForeignText.OneLine(Worst.Remedy);

    /// <summary>Where it bites: ISOs and channel.</summary>
    public string Place
    {
        get
        {
            string[] channels = [.. Findings.Select(f => ForeignText.OneLine(f.Channel)).Distinct()];
            string isos = Isos.Count switch
            {
                0 => string.Empty,
                <= MostIsosNamed => ReviewWords.Isos(Isos),
                _ => string.Create(CultureInfo.InvariantCulture, $"{Isos.Count} ISOs, {Isos[0]} to {Isos[^1]}"),
            };
            return string.Join(", ", new[] { isos, channels is [{ Length: > 0 } one] ? $"channel {one}" : string.Empty }.Where(p => p.Length > 0));
        }
    }

    /// <summary>Word, code and place.</summary>
    public string Heading => string.Join(", ", new[] { $"{Tables.ProvenanceTables.SeverityWord(Severity)}: {Code}", Place }.Where(p => p.Length > 0));

    /// <summary>What was found where it is worst.</summary>
    public string Message => ForeignText.OneLine(Worst.Message);

    /// <summary>The frames that the findings name, each once.</summary>
    public IReadOnlyList<string> Frames => [.. Findings.SelectMany(f => f.Frames).Select(f => ForeignText.OneLine(f)).Distinct(StringComparer.Ordinal)];

    /// <summary>Findings by cause: refusals, then warnings and notes by what they do, then what was compensated.</summary>
    /// <param name="findings">The findings.</param>
    /// <param name="profile">The profile that they are of, for what they do to it; null where there is none.</param>
    public static IReadOnlyList<FindingGroup> Of(IEnumerable<Finding> findings, SensorProfile? profile = null) =>
    [
        .. findings
            .GroupBy(f => (f.Code, f.Severity))
            .Select(g => new FindingGroup([.. g], profile))
            .OrderByDescending(g => g.Severity == FindingSeverity.Refusal)
            .ThenBy(g => g.IsCompensated)
            .ThenByDescending(g => g.Severity)
            .ThenByDescending(g => g.Stops ?? 0)
            .ThenByDescending(g => g.Isos.Count == 0 ? int.MaxValue : g.Isos.Count)
            .ThenBy(g => g.Code, StringComparer.Ordinal),
    ];

    /// <summary>The few lines that stand before the figures.</summary>
    /// <param name="groups">All entries, as <see cref="Of"/> orders them.</param>
    /// <param name="most">How many lines at most.</param>
    /// <returns>A line an entry that is refused or warned of; a last one counts what is left.</returns>
    public static IReadOnlyList<string> Brief(IReadOnlyList<FindingGroup> groups, int most = 5)
    {
        FindingGroup[] first = [.. groups.Where(g => g.Severity != FindingSeverity.Note)];
        int shown = groups.Count <= most && first.Length == groups.Count ? first.Length : Math.Min(first.Length, most - 1);
        string[] lines = [.. first.Take(shown).Select(g => $"{g.Heading}: {g.What}{(g.IsCompensated ? "; compensated" : g.StopsWords is { Length: > 0 } stops ? $"; {stops}" : string.Empty)}.")];
        int left = groups.Count - shown;
        int notes = groups.Count(g => g.Severity == FindingSeverity.Note);
        string more = first.Length > shown
            ? string.Create(CultureInfo.InvariantCulture, $"And {Count(left, "finding")} more, of which {Count(notes, "note")}; all of them below.")
            : $"{Count(notes, "note")}{(lines.Length > 0 ? " more" : string.Empty)}, below: worth knowing, but the figures stand.";
        return left == 0 ? lines : [.. lines, more];
    }

    private string StopsWords => Stops switch
    {
        null => string.Empty,
        < LeastStops => "less than 0.01 stops",
        { } stops => string.Create(CultureInfo.InvariantCulture, $"up to {stops:0.00} stops"),
    };

    private static string Count(int number, string noun) => string.Create(CultureInfo.InvariantCulture, $"{number} {noun}{(number == 1 ? string.Empty : "s")}");

    // A share of the light is a share of an exposure; codes and electrons weigh by the signal at the shadow end.
    private double? StopsOf(SensorProfile profile)
    {
        if (_cause is null or { SizeIsOfEnds: false } or { Touches: FindingEnds.None })
        {
            return null;
        }

        double?[] stops = [.. Findings.Select(f => (f.Size, f.SizeUnit) switch
        {
            ({ } size, "ev") => Math.Abs(size),
            ({ } size, "relative") => Math.Log2(1 + Math.Abs(size)),
            ({ } size, "dn") => ShadowSignals(profile, f.Iso, electrons: false) is { } signal ? Math.Log2(1 + (Math.Abs(size) / signal)) : null,
            ({ } size, "electron") => ShadowSignals(profile, f.Iso, electrons: true) is { } signal ? Math.Log2(1 + (Math.Abs(size) / signal)) : null,
            _ => (double?)null,
        })];
        return stops.Max() is { } most && double.IsFinite(most) ? most : null;
    }

    private static double? ShadowSignals(SensorProfile profile, int? iso, bool electrons)
    {
        double?[] signals =
        [
            .. from measured in profile.IsoProfiles
               where iso is null || measured.Iso == iso
               let green = measured.Channels.FirstOrDefault(c => ChannelName.LeadsPool(c.Name))
               let below = measured.Latitude.BelowEv.FirstOrDefault(e => e.Snr == ShadowEndSnr)?.PerPixel?.Value
               select green?.MiddleGreyDn?.Value * Math.Pow(2, -below ?? double.NaN) * (electrons ? green?.GainElectronPerDn?.Value : 1),
        ];
        return signals.Where(s => s > 0).Min();
    }

    private string EffectOf(SensorProfile? profile)
    {
        if (profile is null && !IsCompensated)
        {
            return string.Empty;
        }

        if (Severity == FindingSeverity.Refusal)
        {
            return Isos.Count == 0 ? "There are no figures." : $"There are no figures at {Place}.";
        }

        if (IsCompensated)
        {
            return "Compensated: the figures are free of it.";
        }

        if (Severity == FindingSeverity.Note)
        {
            return "The figures stand.";
        }

        string ends = _cause?.Touches switch
        {
            FindingEnds.Bright => "the bright end",
            FindingEnds.Shadow => "the shadow end",
            FindingEnds.Both => "both ends",
            _ => string.Empty,
        };
        string left = LeftOf(profile!);
        return (ends, StopsWords) switch
        {
            ("", _) => left.Length > 0 ? left : "The figures stand on fewer frames.",
            (_, { Length: > 0 } stops) => $"It can move {ends} by {stops}. {left}".TrimEnd(),
            _ when left.Length > 0 => left,
            _ => _cause!.SizeIsOfEnds ? $"It touches {ends}; by how much is not known." : $"It touches {ends}, whose intervals carry it.",
        };
    }

    // What the profile itself says of the ends at these ISOs.
    private string LeftOf(SensorProfile profile)
    {
        IsoProfile[] measured = [.. profile.IsoProfiles.Where(i => Isos.Count == 0 || Isos.Contains(i.Iso))];
        FindingEnds touches = _cause?.Touches ?? FindingEnds.None;
        string[] parts =
        [
            .. touches is FindingEnds.Bright or FindingEnds.Both ? StateOf("bright end", [.. measured.Select(i => i.Latitude.AboveEv)]) : [],
            .. touches is FindingEnds.Shadow or FindingEnds.Both ? StateOf("shadow end", [.. measured.Select(ProfileReview.ShadowEndOf)]) : [],
        ];
        return string.Join(" ", parts);
    }

    private static IEnumerable<string> StateOf(string end, Figure?[] figures)
    {
        int absent = figures.Count(f => f is null);
        int bounds = figures.Count(f => f is { Value: null });
        if (absent > 0)
        {
            yield return $"The {end} is absent{(figures.Length > 1 ? $" at {Count(absent, "ISO")}" : string.Empty)}.";
        }

        if (bounds > 0)
        {
            yield return $"The {end} is only a bound{(figures.Length > 1 ? $" at {Count(bounds, "ISO")}" : string.Empty)}.";
        }
    }
}
