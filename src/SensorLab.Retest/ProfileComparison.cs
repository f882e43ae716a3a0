using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Compares two sensor profiles figure by figure, each against its practical margin.</summary>
/// <remarks>
/// Measurement model, section 10. Each difference has one interval, which is printed and judged by: 95 % for all figures of
/// the comparison at once. A figure is changed where its whole interval lies beyond the margin, equivalent where it lies
/// within, else undecided, so that an unchanged body, or one changed by exactly a margin, is called changed in at most 2.5 %.
/// </remarks>
public static class ProfileComparison
{
    /// <summary>Compares two profiles of one model.</summary>
    /// <param name="before">The earlier profile, or the first of two bodies.</param>
    /// <param name="after">The later profile, or the second of two bodies.</param>
    /// <param name="repeats">Sets of the unchanged body: the body and firmware of one of the two, shot anew. They teach what sets differ by.</param>
    /// <param name="margins">The margins.</param>
    /// <exception cref="ProfilesNotComparableException">Another model, sensor size or mosaic, no ISO in common, no figure to judge, or a repeat of another body or firmware.</exception>
    public static RetestResult Of(SensorProfile before, SensorProfile after, IReadOnlyList<SensorProfile> repeats, RetestMargins margins)
    {
        bool withDelivery = HaveOneDelivery(before, after);
        IReadOnlyDictionary<FigureAddress, Figure> held = ProfileFigures.Of(before, withDelivery);
        IReadOnlyDictionary<FigureAddress, Figure> heldAfter = ProfileFigures.Of(after, withDelivery);
        (IReadOnlyList<FigureTest> tests, MeterScatter meter) = Tests((before, after), (held, heldAfter), repeats, margins);
        var further = new FurtherPairs(after);
        ComparedFigure[] figures = [.. tests.Select(t => Compared(t, further))];
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
            Assumes = new Assumptions(before, after, repeats, meter.IsKnown).Sentences(modes, [.. held.Keys.Except(heldAfter.Keys)], [.. heldAfter.Keys.Except(held.Keys)]),
            Figures = figures,
            Changes = changes,
            OnMonday = new OnMondayWriter(figures, changes, modes, isTwoBodies, after.MiddleGrey.MeterStepEv ?? before.MiddleGrey.MeterStepEv).Write(meter.LeastHalfEv(before, after)),
            DialIn = isTwoBodies ? SecondBody.DialIn(figures) : [],
        };
    }

    /// <summary>Compares the figures of two profiles, as <see cref="Of"/> does, and nothing else: levels count only where they are metered.</summary>
    /// <param name="before">The earlier profile, or the first of two bodies.</param>
    /// <param name="after">The later profile, or the second of two bodies.</param>
    /// <param name="margins">The margins.</param>
    /// <returns>The figures of <see cref="RetestResult.Figures"/>, without further pairs.</returns>
    /// <exception cref="ProfilesNotComparableException">As from <see cref="Of"/>.</exception>
    public static IReadOnlyList<ComparedFigure> FiguresOf(SensorProfile before, SensorProfile after, RetestMargins margins)
    {
        bool withDelivery = HaveOneDelivery(before, after);
        return [.. Tests((before, after), (ProfileFigures.Of(before, withDelivery), ProfileFigures.Of(after, withDelivery)), [], margins).Tests.Select(t => Compared(t, further: null))];
    }

    private static bool HaveOneDelivery(SensorProfile before, SensorProfile after) => before.Delivery is not null && before.Delivery == after.Delivery;

    private static (IReadOnlyList<FigureTest> Tests, MeterScatter Meter) Tests(
        (SensorProfile Before, SensorProfile After) profiles,
        (IReadOnlyDictionary<FigureAddress, Figure> Before, IReadOnlyDictionary<FigureAddress, Figure> After) held,
        IReadOnlyList<SensorProfile> repeats,
        RetestMargins margins)
    {
        ProfileMatch.Require(profiles.Before, profiles.After);
        IReadOnlyList<IReadOnlyList<SensorProfile>> groups = GroupsOf(profiles.Before, profiles.After, repeats);
        SetScatter sets = SetScatter.Of([.. groups.Where(g => g.Count > 1).Select(g => g.Select(p => ProfileFigures.Of(p, withDelivery: g[0].Delivery == p.Delivery)).ToArray())], margins);
        MeterScatter meter = MeterScatter.Of(groups);
        IReadOnlyList<FigureTest> tests = new FigureFamily(profiles, held, margins, sets, meter).Tests();
        ProfileMatch.RequireJudged(tests.Any(t => t.Margin is not null));
        return (tests, meter);
    }

    /// <summary>Each of the two sets with its repeats.</summary>
    private static IReadOnlyList<IReadOnlyList<SensorProfile>> GroupsOf(SensorProfile before, SensorProfile after, IReadOnlyList<SensorProfile> repeats)
    {
        ILookup<bool, SensorProfile> sides = repeats.Select((r, i) => (Repeat: r, OfBefore: ProfileMatch.RepeatsBefore(before, after, r, i + 1))).ToLookup(r => r.OfBefore, r => r.Repeat);
        return [[before, .. sides[true]], [after, .. sides[false]]];
    }

    private static ComparedFigure Compared(FigureTest test, FurtherPairs? further)
    {
        RetestVerdict verdict = test.Verdict();
        (int? pairs, string? reason) = verdict == RetestVerdict.Undecided && further is not null ? further.Of(test) : (null, null);
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
