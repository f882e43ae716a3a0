using System.Globalization;

namespace SensorLab.Retest;

/// <summary>Says what a comparison means for the next assignment.</summary>
/// <param name="figures">The compared figures.</param>
/// <param name="changes">What changed.</param>
/// <param name="modes">How recording modes differ.</param>
/// <param name="isTwoBodies">Whether two bodies were compared.</param>
/// <param name="meterStepEv">The meter's step; null where it is not known.</param>
internal sealed class OnMondayWriter(IReadOnlyList<ComparedFigure> figures, IReadOnlyList<Change> changes, IReadOnlyList<string> modes, bool isTwoBodies, double? meterStepEv)
{
    /// <summary>Smaller moves round to nothing in hundredths of a stop.</summary>
    private const double SmallestMoveEv = 0.005;

    private const string BelowTextured = "belowEv.snr10.perPixel";

    /// <summary>Changes after which raw files are another kind of file.</summary>
    private static readonly string[] OtherFiles = [ChangeCode.FilterChanged, ChangeCode.RawFormatChanged, ChangeCode.WhiteDeclaredChanged, ChangeCode.BlackMoved];

    private readonly ILookup<int, ComparedFigure> _wholeIsos = figures.Where(f => f.Address.Channel is null).ToLookup(f => f.Address.Iso);

    private ComparedFigure[] Open => [.. figures.Where(f => f.Verdict == RetestVerdict.Undecided)];

    /// <summary>The whole.</summary>
    /// <param name="undecidableEv">What the meter leaves open of a difference however often sets are repeated; null where nothing tells.</param>
    public OnMonday Write(double? undecidableEv)
    {
        string[] ways = [.. Ways()];
        (RetestRecommendation recommendation, string sentence) = Recommend(ways);
        return new OnMonday(recommendation, sentence, [.. Tones()], undecidableEv is { } ev ? CannotDecide(ev) : null, ways);
    }

    private (RetestRecommendation Recommendation, string Sentence) Recommend(string[] ways)
    {
        ComparedFigure[] changed = [.. figures.Where(f => f.Verdict == RetestVerdict.Changed)];
        if (changes.Any(c => OtherFiles.Contains(c.Code)))
        {
            return (RetestRecommendation.TellTheTeam, "Tell everyone who works with this body's files before the next assignment: " + (modes.Count > 0
                ? "the recording modes differ, so set the menus back first and shoot the later set again."
                : "the files are another kind of file now. Take the later profile, and have converters' own settings for this body checked."));
        }

        if (changed.Length + changes.Count > 0)
        {
            bool isMeterAlone = changed.All(f => f.IsMeterTied) && changes.All(c => c.Code == ChangeCode.IsoShifted)
                && changed.All(f => meterStepEv is { } step && Math.Abs(f.Difference?.Value ?? double.PositiveInfinity) <= step);
            return isTwoBodies ? (RetestRecommendation.Replace, "Use each body with its own profile, and dial in on the second what is named below.")
                : isMeterAlone ? (RetestRecommendation.ShootFirst, $"Shoot first: two metered frames at each edge of the meter's zero at ISO {IsosOf(changed)}, with either firmware where you can go back. The shift lies within the meter's step, and the meter alone can make it.")
                : (RetestRecommendation.Replace, "Replace the profile by the later one from the next assignment on: the earlier one no longer describes this body.");
        }

        if (Open.Length == 0)
        {
            return (RetestRecommendation.Keep, "Keep the profile: every tone lies where it did, within the margins.");
        }

        ComparedFigure[] countable = [.. Open.Where(f => f.FurtherPairs is not null)];
        if (countable.Length > 0)
        {
            return (RetestRecommendation.ShootFirst, string.Create(CultureInfo.InvariantCulture, $"Shoot first: {countable.Max(f => f.FurtherPairs)} more pairs of frames at every level of the later set, at ISO {IsosOf(countable)}."));
        }

        if (Open.All(f => f.IsMeterTied))
        {
            return (RetestRecommendation.Keep, "Keep the profile: whatever needs no meter is as it was, and what is open lies within what the meter leaves open. To settle it, read both edges of the meter's zero for both sets (two metered frames each).");
        }

        return (RetestRecommendation.Replace, "Take the later profile: it describes the body as it is now, and what is open lies too near a margin, or rests on too little, for frames to settle.");
    }

    private IEnumerable<string> Tones()
    {
        string[] moves = [.. figures.Select(f => f.Address.Iso).Distinct().Order().Select(MoveOf).OfType<string>()];
        return moves.Length > 0 ? moves : ["No tone moves by more than matters, at any ISO that was compared."];
    }

    private string? MoveOf(int iso)
    {
        string[] parts = [.. new[] { EndOf(iso, "aboveEv", 1, "highlights clip", ("later", "sooner")), EndOf(iso, BelowTextured, -1, "textured shadow ends", ("higher", "deeper")) }.OfType<string>()];
        bool isOpen = _wholeIsos[iso].Any(f => f.Verdict == RetestVerdict.Undecided && (f.Address.Name == "aboveEv" || f.Address.Name == BelowTextured));
        return parts.Length == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"ISO {iso}: {string.Join("; ", parts)}.{(isOpen ? " Open: where the meter was read, or noise, can make it." : string.Empty)}");
    }

    /// <summary>An end of the latitude that does not lie where it did, as EV from middle grey.</summary>
    private string? EndOf(int iso, string name, int sign, string what, (string Up, string Down) ways)
    {
        ComparedFigure? end = _wholeIsos[iso].FirstOrDefault(f => f.Address.Name == name);
        if (end is not { Verdict: RetestVerdict.Changed or RetestVerdict.Undecided, Difference: { Value: { } moved } difference, Before.Value: { } was, After.Value: { } isNow } || Math.Abs(moved) < SmallestMoveEv)
        {
            return null;
        }

        double half = Math.Max((difference.Upper95 ?? moved) - moved, moved - (difference.Lower95 ?? moved));
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{what} {Math.Abs(moved):0.00} ±{Math.Ceiling((100 * half) - 1e-9) / 100:0.00} EV {(sign * moved > 0 ? ways.Up : ways.Down)} (at {sign * was:+0.00;-0.00} before, {sign * isNow:+0.00;-0.00} after)");
    }

    /// <summary>Each way once: numbers of pairs together, then each reason with the figures that it holds for.</summary>
    private IEnumerable<string> Ways()
    {
        ComparedFigure[] countable = [.. Open.Where(f => f.FurtherPairs is not null)];
        if (countable.Length > 0)
        {
            string kinds = string.Join(", ", countable.GroupBy(f => FigureName.WordsOf(f.Address.Name)).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Key} {g.Max(f => f.FurtherPairs)}")));
            yield return $"Further pairs of frames a level of the later set that would decide, 9 times in 10: {kinds}.";
        }

        foreach (IGrouping<string, ComparedFigure> reason in Open.Where(f => f.FurtherPairs is null).GroupBy(f => f.FurtherPairsReason ?? string.Empty))
        {
            string[] kinds = [.. reason.Select(f => FigureName.WordsOf(f.Address.Name)).Distinct()];
            string named = reason.All(f => f.IsMeterTied) && kinds.Length > 1 ? "Middle grey and what counts from it" : string.Join(", ", kinds);
            yield return $"{named} (ISO {IsosOf(reason)}): {reason.Key}";
        }
    }

    private static string CannotDecide(double undecidableEv) => string.Create(
        CultureInfo.InvariantCulture,
        $"What this kind of metering cannot decide, whatever is shot: moves from middle grey of less than {undecidableEv:0.00} EV beyond a margin. Readings at both edges of the meter's zero, or more of them, narrow that; figures that need no meter do not have it.");

    private static string IsosOf(IEnumerable<ComparedFigure> some) =>
        string.Join(", ", some.Select(f => f.Address.Iso).Distinct().Order().Select(i => i.ToString(CultureInfo.InvariantCulture)));
}
