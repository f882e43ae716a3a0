using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Compares two sensor profiles figure by figure, each against its practical margin.</summary>
/// <remarks>
/// Measurement model, section 10. A figure is equivalent where two one-sided tests place its difference within the margin,
/// changed where a test places it beyond, else undecided; both families by Holm's step-down over all judged figures, so
/// that a set with a true change of exactly the margin is called changed in at most 2.5 % of cases and a figure there
/// equivalent in at most 5 %.
/// </remarks>
public static class ProfileComparison
{
    /// <summary>How often the family may call something changed that is not.</summary>
    public const double ChangeLevel = 0.025;

    /// <summary>How often the family may call something equivalent that is not.</summary>
    public const double EquivalenceLevel = 0.05;

    /// <summary>Compares two profiles of one model.</summary>
    /// <param name="before">The earlier profile, or the first of two bodies.</param>
    /// <param name="after">The later profile, or the second of two bodies.</param>
    /// <param name="repeats">Sets of the unchanged body: the body and firmware of one of the two, shot anew. They teach what sets differ by.</param>
    /// <param name="margins">The margins.</param>
    /// <exception cref="ProfilesNotComparableException">Another model, sensor size or mosaic, no ISO in common, no figure to judge, or a repeat of another body or firmware.</exception>
    public static RetestResult Of(SensorProfile before, SensorProfile after, IReadOnlyList<SensorProfile> repeats, RetestMargins margins)
    {
        ProfileMatch.Require(before, after);
        bool withDelivery = before.Delivery is not null && before.Delivery == after.Delivery;
        IReadOnlyDictionary<FigureAddress, Figure> held = ProfileFigures.Of(before, withDelivery);
        IReadOnlyDictionary<FigureAddress, Figure> heldAfter = ProfileFigures.Of(after, withDelivery);
        Reproducibility reproducibility = Learn(before, after, repeats, margins);
        FigureTest[] tests = [.. held.Where(h => heldAfter.ContainsKey(h.Key)).Select(h => FigureTest.Of(h.Key, h.Value, heldAfter[h.Key], margins, reproducibility))];
        ProfileMatch.RequireJudged(tests.Any(t => t.Margin is not null));
        ComparedFigure[] figures = Judge(tests, after);
        IReadOnlyList<Change> changes = ChangeSearch.Find(new RetestEvidence(before, after, figures));
        IReadOnlyList<string> modes = SettingsComparison.ModeDifferences(before, after);
        bool isTwoBodies = ProfileMatch.AreTwoBodies(before, after);
        Change[] freeChanges = [.. changes.Where(c => c.Code is not (ChangeCode.IsoShifted or ChangeCode.PreviewChanged))];
        return new RetestResult
        {
            Verdict = Whole(figures, changes),
            MeterFreeVerdict = Whole([.. figures.Where(f => !f.IsMeterTied)], freeChanges),
            MeterTiedVerdict = Whole([.. figures.Where(f => f.IsMeterTied)], [.. changes.Except(freeChanges)]),
            IsTwoBodies = isTwoBodies,
            BodyBefore = before.Body,
            BodyAfter = after.Body,
            ModeDifferences = modes,
            Assumes = new Assumptions(before, after, repeats).Sentences(modes, [.. held.Keys.Except(heldAfter.Keys)], [.. heldAfter.Keys.Except(held.Keys)]),
            Figures = figures,
            Changes = changes,
            DialIn = isTwoBodies ? SecondBody.DialIn(figures) : [],
        };
    }

    private static Reproducibility Learn(SensorProfile before, SensorProfile after, IReadOnlyList<SensorProfile> repeats, RetestMargins margins)
    {
        ILookup<bool, SensorProfile> sides = repeats.Select((r, i) => (Repeat: r, OfBefore: ProfileMatch.RepeatsBefore(before, after, r, i + 1))).ToLookup(r => r.OfBefore, r => r.Repeat);
        IReadOnlyDictionary<FigureAddress, Figure>[] GroupOf(SensorProfile first, bool side) =>
            [.. sides[side].Prepend(first).Select(p => ProfileFigures.Of(p, withDelivery: first.Delivery == p.Delivery))];
        return repeats.Count == 0 ? Reproducibility.None : Reproducibility.Of([GroupOf(before, true), GroupOf(after, false)], margins);
    }

    private static ComparedFigure[] Judge(FigureTest[] tests, SensorProfile after)
    {
        FigureTest[] judged = [.. tests.Where(t => t.Margin is not null)];
        bool[] changed = HolmProcedure.Reject([.. judged.Select(t => t.ChangeProbability())], ChangeLevel);
        bool[] equivalent = HolmProcedure.Reject([.. judged.Select(t => t.EquivalenceProbability())], EquivalenceLevel);
        Dictionary<FigureAddress, RetestVerdict> verdicts = judged
            .Select((t, i) => (t.Address, Verdict: changed[i] ? RetestVerdict.Changed : equivalent[i] ? RetestVerdict.Equivalent : RetestVerdict.Undecided))
            .ToDictionary(v => v.Address, v => v.Verdict);
        var further = new FurtherPairs(after, judged.Length, verdicts.Values.Count(v => v == RetestVerdict.Undecided));
        return [.. tests.Select(t => Compared(t, verdicts.GetValueOrDefault(t.Address, RetestVerdict.NotJudged), further))];
    }

    private static ComparedFigure Compared(FigureTest test, RetestVerdict verdict, FurtherPairs further)
    {
        (int? pairs, string? reason) = verdict == RetestVerdict.Undecided ? further.Of(test) : (null, null);
        return new ComparedFigure
        {
            Address = test.Address,
            Before = test.Before,
            After = test.After,
            Difference = test.Difference(),
            Margin = test.Margin,
            Unit = test.Unit,
            Verdict = verdict,
            FurtherPairs = pairs,
            FurtherPairsReason = reason,
        };
    }

    private static RetestVerdict Whole(IReadOnlyList<ComparedFigure> figures, IReadOnlyList<Change> changes) =>
        changes.Count > 0 || figures.Any(f => f.Verdict == RetestVerdict.Changed) ? RetestVerdict.Changed
        : figures.Any(f => f.Verdict == RetestVerdict.Undecided) ? RetestVerdict.Undecided
        : figures.Any(f => f.Verdict == RetestVerdict.Equivalent) ? RetestVerdict.Equivalent
        : RetestVerdict.NotJudged;
}
