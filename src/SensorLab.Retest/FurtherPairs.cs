using System.Globalization;
using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>How many further pairs of frames a level of the later set would decide a figure that is undecided.</summary>
/// <remarks>
/// The number is one that decides with 90 % power whether the true change is at most half the margin, at least twice it,
/// or what was measured. Of the difference's variance only the later set's part falls: with the number of frames less
/// one for what rests on variances, with the number of frames for means. The earlier set cannot be shot again, and what
/// repeats showed stays.
/// </remarks>
internal sealed class FurtherPairs
{
    private const double MissedPower = 0.1;

    /// <summary>Degrees of freedom below which repeats, and not the frames' noise, make a difference unsure.</summary>
    private const double FewFreedom = 30;

    /// <summary>An evening's worth: beyond this a number is no advice.</summary>
    private const int Most = 500;

    private readonly double _changeLevel;
    private readonly double _equivalenceLevel;
    private readonly SensorProfile _after;

    /// <summary>Prepares for a family.</summary>
    /// <param name="after">The later set.</param>
    /// <param name="judged">Figures that are judged.</param>
    /// <param name="undecided">Figures that are undecided.</param>
    public FurtherPairs(SensorProfile after, int judged, int undecided)
    {
        _after = after;
        _changeLevel = ProfileComparison.ChangeLevel / Math.Max(1, judged);
        _equivalenceLevel = ProfileComparison.EquivalenceLevel / Math.Max(1, undecided);
    }

    /// <summary>The number, or why there is none.</summary>
    public (int? Pairs, string? Reason) Of(FigureTest test)
    {
        if (test.Stated is not { } stated || test.Margin is not { } margin)
        {
            return (null, "One of the sets ended before this figure, and has only a bound: more frames of the same levels do not reach farther. Shoot brighter or darker levels.");
        }

        double needed = NeededUncertainty(margin, Math.Abs(stated.Value), test.DegreesOfFreedom);
        double fixedVariance = test.Variance - (stated.AfterUncertainty * stated.AfterUncertainty);
        double room = (needed * needed) - fixedVariance;
        if (room <= 0)
        {
            bool isClose = NeededUncertainty(margin, null, test.DegreesOfFreedom) > Math.Sqrt(fixedVariance);
            return (null, isClose
                ? "The difference is too near the margin: no number of further frames would tell to which side it lies."
                : test.DegreesOfFreedom < FewFreedom
                    ? "What sets of an unchanged body differ by is too large, or known from too few repeats: further frames would not decide, more repeats may."
                    : "The earlier set is alone too uncertain, and cannot be shot again: no number of further frames would decide.");
        }

        double frames = FramesOf(test.Address.Iso);
        double now = frames - Lost(test.Address.Name);
        double pairs = Math.Ceiling(((stated.AfterUncertainty * stated.AfterUncertainty / room) - 1) * now / 2);
        return pairs <= Most
            ? ((int)Math.Max(1, pairs), null)
            : (null, string.Create(CultureInfo.InvariantCulture, $"More than {Most} further pairs a level would be needed."));
    }

    /// <summary>The standard uncertainty of the difference that decides at 90 % power.</summary>
    private double NeededUncertainty(double margin, double? measured, double freedom)
    {
        double power = StudentTail.Quantile(MissedPower, double.PositiveInfinity);
        double equivalent = StudentTail.Quantile(_equivalenceLevel, freedom) + power;
        double changed = StudentTail.Quantile(_changeLevel, freedom) + power;
        double either = Math.Min(margin / 2 / equivalent, margin / changed);
        return measured is { } size
            ? Math.Min(either, size < margin ? (margin - size) / equivalent : (size - margin) / changed)
            : either;
    }

    /// <summary>Frames of a typical level of an ISO.</summary>
    private double FramesOf(int iso)
    {
        int[] frames = [.. _after.IsoProfiles.Where(p => p.Iso == iso).SelectMany(p => p.Levels).Where(l => l.Role == RoleName.Bracket && l.Frames > 1).Select(l => l.Frames).Order()];
        return frames.Length == 0 ? 2 : frames[frames.Length / 2];
    }

    /// <summary>A variance of n frames rests on n − 1 of them, a mean on all.</summary>
    private static double Lost(string name) => name is "blackLevelDn" or "middleGreyDn" or "saturationDn" or "aboveEv" ? 0 : 1;
}
