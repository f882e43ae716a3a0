using System.Globalization;

namespace SensorLab.Debrief;

/// <summary>What a photographer can do next time, in stops.</summary>
internal static class DayAdvice
{
    /// <summary>Less than this is no advice: a third of a stop is the smallest that a dial has.</summary>
    private const double SmallestEv = 1.0 / 6;

    /// <summary>Nearer to the clip than this on either side is placed well.</summary>
    private const double PlacedEv = 1.0 / 3;

    /// <summary>The sentences of an ISO.</summary>
    public static IEnumerable<string> Of(IsoUse use)
    {
        string frames = use.Frames == 1 ? "one frame" : string.Create(CultureInfo.InvariantCulture, $"{use.Frames} frames");
        yield return use.ExposeToClipEv switch
        {
            { AtMost: { } bound } => string.Create(CultureInfo.InvariantCulture, $"ISO {use.Iso} ({frames}): your brightest surfaces lay {-bound:0.0} stops or more above what this body holds, in every channel: nothing is left to tell by how much. Give that much less light, and look again."),
            { Value: { } value, Lower95: > 0 } change when value > SmallestEv => string.Create(CultureInfo.InvariantCulture, $"ISO {use.Iso} ({frames}): your brightest surfaces lay {value:0.0} ±{Half(change):0.0} stops lower than this body holds. So much more light would have fitted in half of the frames{Quarter(use)}."),
            { Value: { } value, Upper95: < 0 } change when value < -SmallestEv => string.Create(CultureInfo.InvariantCulture, $"ISO {use.Iso} ({frames}): your brightest surfaces lay {-value:0.0} ±{Half(change):0.0} stops higher than this body holds. Give so much less light where they must keep texture{Worst(use)}."),
            { Lower95: >= -PlacedEv, Upper95: <= PlacedEv } => string.Create(CultureInfo.InvariantCulture, $"ISO {use.Iso} ({frames}): your brightest surfaces lay at what this body holds, within a third of a stop: placed well."),
            _ => $"ISO {Whole(use.Iso)} ({frames}): {Spread(use)} No one change of exposure fits them all: meter the bright end of each scene.",
        };
        if (use.UnknownFrames > 0 && use.ExposeToClipEv?.AtMost is null)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"ISO {use.Iso}: in {use.UnknownFrames} of {frames} the brightest surfaces clip in every channel. Lamps and the sun may; a wall or a sky needs less light.");
        }
    }

    private static double Half(Profiles.Figure figure) => Math.Ceiling(10 * Math.Max(figure.Upper95!.Value - figure.Value!.Value, figure.Value.Value - figure.Lower95!.Value)) / 10;

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Spread(IsoUse use) => use switch
    {
        { LowerQuartileEv: { } low, UpperQuartileEv: { } high } => $"in half of the frames the brightest surfaces lay from {Side(low)} to {Side(high)}.",
        { UpperQuartileEv: { } high } => $"in a quarter of the frames the brightest surfaces lay {Side(high)} or lower, in another they clip in every channel.",
        _ => "the frames differ too much, or are too few, to say more of all than of each.",
    };

    private static string Side(double ev) => string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(ev):0.0} stops {(ev < 0 ? "above" : "below")} the clip");

    private static string Quarter(IsoUse use) => use.Frames < 4 || use.LowerQuartileEv is not { } low ? string.Empty
        : low > SmallestEv ? string.Create(CultureInfo.InvariantCulture, $", {low:0.0} stops more in three of four")
        : ", none in a quarter of them";

    private static string Worst(IsoUse use) => use.Frames >= 4 && use.LowerQuartileEv is { } low && low < use.ExposeToClipEv!.Value - SmallestEv
        ? string.Create(CultureInfo.InvariantCulture, $"; in a quarter of the frames {-low:0.0} or more") : string.Empty;
}
