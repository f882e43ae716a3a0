using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>How many further pairs of frames a level of the later set would decide a figure that is undecided.</summary>
/// <remarks>
/// The number is one that decides with 90 % power whether the true change is at most half the margin, at least twice it,
/// or what was measured. Of the difference's parts only the later set's noise falls: its variance with the number of frames
/// less one for what rests on variances, with the number of frames for means. The earlier set cannot be shot again, and
/// neither the meter nor what sets differ by is in the frames.
/// </remarks>
internal sealed class FurtherPairs(SensorProfile after)
{
    /// <summary>The normal distribution's deviation that is exceeded in 10 % of cases: 90 % power.</summary>
    private const double Power = 1.2815515655446004;

    /// <summary>An evening's worth: beyond this a number is no advice.</summary>
    private const int Most = 500;

    private readonly Dictionary<int, double> _frames = [];

    /// <summary>The number, or why there is none.</summary>
    public (int? Pairs, string? Reason) Of(FigureTest test)
    {
        if (test.Stated is not { } stated || test.Margin is not { } margin)
        {
            return (null, "One of the sets ended before this figure, and has only a bound: more frames of the same levels do not reach farther. Shoot brighter or darker levels.");
        }

        double any = margin / 2;
        double measured = Math.Min(any, Math.Abs(Math.Abs(stated.Value) - margin));
        if (!Decides(test.Budget, measured, 0))
        {
            return (null, ReasonOf(test.Budget, any, measured));
        }

        double frames = FramesOf(test.Address.Iso) - Lost(test.Address.Name);
        bool DecideWith(int pairs) => Decides(test.Budget, measured, frames / (frames + (2 * pairs)));
        if (!DecideWith(Most))
        {
            return (null, string.Create(CultureInfo.InvariantCulture, $"More than {Most} further pairs a level would be needed."));
        }

        (int few, int enough) = (0, Most);
        while (enough - few > 1)
        {
            int middle = (few + enough) / 2;
            (few, enough) = DecideWith(middle) ? (few, middle) : (middle, enough);
        }

        return (enough, null);
    }

    /// <summary>Whether a distance from the margin would be decided with the later set's noise at a share of its variance.</summary>
    private static bool Decides(DifferenceBudget budget, double distance, double share)
    {
        DifferenceBudget then = budget.With(DifferenceCause.NoiseAfter, p => p.Lessened(share));
        return then.Half + (Power * then.StandardUncertainty) <= distance;
    }

    private static string ReasonOf(DifferenceBudget budget, double any, double measured)
    {
        if (Decides(budget, any, 0))
        {
            return "The difference is too near the margin: no number of further frames would tell to which side it lies.";
        }

        DifferenceBudget known = budget
            .With(DifferenceCause.Meter, p => p.Known)
            .With(DifferenceCause.SetToSet, p => p.Known);
        double shared = budget.Parts.Where(p => p.Cause == DifferenceCause.Meter).Sum(p => p.Half);
        if (shared > any)
        {
            double least = known.Parts.Where(p => p.Cause == DifferenceCause.Meter).Sum(p => p.Half);
            return Decides(known, measured, 0)
                ? "Where the meter was read makes too much of it, and too few readings tell how much: frames would not decide, repeats (--repeat) may."
                : string.Create(CultureInfo.InvariantCulture, $"Where the meter was read makes ±{least:0.00} EV of it however many repeats there are, more than the margin has room for: neither frames nor repeats decide. Take more independent meter readings for both sets, or go by the figures that need no meter.");
        }

        return budget.Parts.Where(p => p.Cause == DifferenceCause.SetToSet).Sum(p => p.Half) <= any
            ? "The earlier set is alone too uncertain, and cannot be shot again: no number of further frames would decide."
            : Decides(known, measured, 0)
                ? "What sets of an unchanged body differ by is known from too few repeats: further frames would not decide, more repeats (--repeat) may."
                : "Sets of an unchanged body differ by too much here: neither frames nor repeats decide.";
    }

    /// <summary>Frames of a typical level of an ISO.</summary>
    private double FramesOf(int iso)
    {
        if (!_frames.TryGetValue(iso, out double typical))
        {
            int[] frames = [.. after.IsoProfiles.Where(p => p.Iso == iso).SelectMany(p => p.Levels).Where(l => l.Role == RoleName.Bracket && l.Frames > 1).Select(l => l.Frames).Order()];
            _frames[iso] = typical = frames.Length == 0 ? 2 : frames[frames.Length / 2];
        }

        return typical;
    }

    /// <summary>A variance of n frames rests on n − 1 of them, a mean on all.</summary>
    private static double Lost(string name) => name is "blackLevelDn" or "middleGreyDn" or "saturationDn" or "aboveEv" ? 0 : 1;
}
