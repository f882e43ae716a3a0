using System.Globalization;

namespace SensorLab.Reports.Charts;

/// <summary>What the latitude ruler shows for this body, in a sentence or two.</summary>
internal static class LatitudeSentence
{
    /// <summary>Computes the sentence.</summary>
    /// <param name="rows">The ruler's rows in rising ISO.</param>
    public static string Of(IReadOnlyList<LatitudeRow> rows) => rows.Count switch
    {
        0 => "No ISO could be measured.",
        1 => OfOne(rows[0]),
        _ => $"{Bright(rows)} {Shadow(rows)}",
    };

    private static string OfOne(LatitudeRow row)
    {
        string channel = row.LimitingChannel is { } limiting ? $" (channel {limiting} saturates first)" : string.Empty;
        string bright = row.BrightEnd is null
            ? "the bright end was not measured"
            : $"highlights end at {EvText.MarkInSentence(row.BrightEnd)}{channel}";
        string shadow = row.ShadowEnd is null
            ? "no shadow end at SNR 10 was measured"
            : $"shadows fall to SNR 10 at {EvText.MarkInSentence(row.ShadowEnd)}";
        return string.Create(CultureInfo.InvariantCulture, $"At ISO {row.Iso} {bright} and {shadow}.");
    }

    private static string Bright(IReadOnlyList<LatitudeRow> rows)
    {
        LatitudeRow[] measured = [.. rows.Where(row => row.BrightEnd is { IsBound: false }).OrderBy(row => row.BrightEnd!.Value.Ev)];
        int bounds = rows.Count(row => row.BrightEnd is { IsBound: true });
        string open = Open(bounds, "bright end");
        if (measured.Length == 0)
        {
            return bounds == 0 ? "No bright end was measured." : "No bright end was reached, only bounds are known.";
        }

        (LatitudeRow least, LatitudeRow most) = (measured[0], measured[^1]);
        bool same = EvText.Signed(least.BrightEnd!.Value.Ev) == EvText.Signed(most.BrightEnd!.Value.Ev);
        string range = (measured.Length, same) switch
        {
            (1, _) => $"Highlights end at {Place(least.BrightEnd, least)}",
            (_, true) => $"Highlights end at {EvText.Signed(least.BrightEnd.Value.Ev)} EV at every ISO measured",
            _ => $"Highlights end between {Place(least.BrightEnd, least)} and {Place(most.BrightEnd, most)}",
        };
        return $"{range}{open}.";
    }

    private static string Shadow(IReadOnlyList<LatitudeRow> rows)
    {
        LatitudeRow[] measured = [.. rows.Where(row => row.ShadowEnd is { IsBound: false }).OrderBy(row => row.ShadowEnd!.Value.Ev)];
        int bounds = rows.Count(row => row.ShadowEnd is { IsBound: true });
        string open = Open(bounds, "shadow end");
        if (measured.Length == 0)
        {
            return bounds == 0 ? "No shadow end at SNR 10 was measured." : "At SNR 10 only bounds of the shadow end are known.";
        }

        (LatitudeRow deepest, LatitudeRow nearest) = (measured[0], measured[^1]);
        string range = measured.Length == 1
            ? $"Shadows fall to SNR 10 at {Place(deepest.ShadowEnd, deepest)}"
            : $"Shadows fall to SNR 10 at {Place(deepest.ShadowEnd, deepest)} where they reach deepest and at {Place(nearest.ShadowEnd, nearest)} where they end first";
        return $"{range}{open}.";
    }

    private static string Open(int bounds, string end) => bounds switch
    {
        0 => string.Empty,
        1 => $"; at one ISO only a bound of the {end} is known",
        _ => string.Create(CultureInfo.InvariantCulture, $"; at {bounds} ISOs only bounds of the {end} are known"),
    };

    private static string Place(EvMark? mark, LatitudeRow row) =>
        string.Create(CultureInfo.InvariantCulture, $"{EvText.Signed(mark!.Value.Ev)} EV (ISO {row.Iso})");
}
