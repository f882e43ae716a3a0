using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Where inside its zero the meter was read: one draw an ISO and set, which every figure from middle grey on shares.</summary>
/// <remarks>
/// Told by the sets themselves: by independent readings of an ISO within a set, and by repeats. Both are samples of one
/// variance of a reading, σ²: squares within sets with n − 1 degrees of freedom an ISO, squares of the sets' means, times n,
/// with one a repeat. Where the repeats alone show more than both together, they stand alone: readings of one sitting can be
/// more alike than sittings. A meter that shows steps reads zero over one step, so that no two sets differ by more.
/// </remarks>
internal sealed class MeterScatter
{
    /// <summary>Two readings anywhere in the zero lie this share of a step apart or more once in 25 times.</summary>
    private const double EdgeShare = 0.8;

    private readonly double _readingVarianceEv2;
    private readonly double _freedom;
    private readonly double _limitEv;
    private readonly FamilyFactors _factors = new();

    private MeterScatter(double readingVarianceEv2, double freedom, double limitEv) =>
        (_readingVarianceEv2, _freedom, _limitEv) = (readingVarianceEv2, freedom, limitEv);

    /// <summary>Whether readings or repeats tell anything.</summary>
    public bool IsKnown => _freedom > 0;

    /// <summary>Learns from the sets that are compared and their repeats.</summary>
    /// <param name="groups">Sets of one body and firmware each, the compared one first.</param>
    public static MeterScatter Of(IReadOnlyList<IReadOnlyList<SensorProfile>> groups)
    {
        SensorProfile[] all = [.. groups.SelectMany(g => g)];
        if (all.Any(p => p.MiddleGrey.Method != GreyMethodName.Metered))
        {
            return new MeterScatter(0, 0, double.PositiveInfinity);
        }

        double step = all.Any(p => p.MiddleGrey.MeterStepEv is null or 0) ? double.PositiveInfinity : all.Max(p => p.MiddleGrey.MeterStepEv!.Value);
        Squares within = Sum(all.SelectMany(p => p.IsoProfiles).Select(iso => MeterReadings.Ev(iso).ToArray()).Where(r => !AreEdges(r, step)).Select(r => SquaresOf(r, 1)));
        Squares between = Sum(groups.Where(g => g.Count > 1).SelectMany(BetweenSets));
        Squares both = new(within.Sum + between.Sum, within.Freedom + between.Freedom);
        Squares used = between.Freedom > 0 && between.Mean > both.Mean ? between : both;
        return new MeterScatter(used.Freedom > 0 ? used.Mean : 0, used.Freedom, used.Mean > step * step ? double.PositiveInfinity : step);
    }

    /// <summary>The part of a difference at an ISO.</summary>
    /// <param name="before">The earlier set's ISO.</param>
    /// <param name="after">The later set's.</param>
    /// <param name="family">ISOs that are compared: one draw each.</param>
    public DifferencePart PartOf(IsoProfile before, IsoProfile after, int family) => new(
        DifferenceCause.Meter,
        Math.Sqrt(_readingVarianceEv2 * ((1.0 / MeterReadings.Count(before)) + (1.0 / MeterReadings.Count(after)))),
        Math.Max(1, _freedom),
        family,
        _limitEv,
        _factors);

    /// <summary>What the meter leaves open of a difference at the worst ISO, were its scatter known outright: no repeat brings it below. Null where nothing tells.</summary>
    /// <param name="before">The earlier set.</param>
    /// <param name="after">The later set.</param>
    public double? LeastHalfEv(SensorProfile before, SensorProfile after)
    {
        (IsoProfile Before, IsoProfile After)[] isos = [.. before.IsoProfiles.Join(after.IsoProfiles, b => b.Iso, a => a.Iso, (b, a) => (b, a))];
        double[] halves = [.. isos.Select(i => PartOf(i.Before, i.After, isos.Length).Known.Half)];
        return IsKnown && halves.Length > 0 ? halves.Max() : null;
    }

    /// <summary>Whether readings were taken at the edges of the zero on purpose: their distance is the step, and no scatter.</summary>
    private static bool AreEdges(double[] readingsEv, double step) => readingsEv.Length > 1 && readingsEv.Max() - readingsEv.Min() > EdgeShare * step;

    private static IEnumerable<Squares> BetweenSets(IReadOnlyList<SensorProfile> group) => group[0].IsoProfiles.Select(iso =>
    {
        IsoProfile[] sets = [.. group.Select(p => p.IsoProfiles.FirstOrDefault(i => i.Iso == iso.Iso)).OfType<IsoProfile>()];
        double[] greys = [.. sets.Select(GreyEv).OfType<double>()];
        return SquaresOf(greys, sets.Average(MeterReadings.Count));
    });

    /// <summary>Middle grey's signal in EV, the channels' mean.</summary>
    private static double? GreyEv(IsoProfile iso)
    {
        double[] channels = [.. iso.Channels.Select(c => c.MiddleGreyDn?.Value).OfType<double>().Where(v => v > 0).Select(Math.Log2)];
        return channels.Length == iso.Channels.Count ? channels.Average() : null;
    }

    private static Squares SquaresOf(double[] values, double weight)
    {
        double mean = values.Length > 0 ? values.Average() : 0;
        return new Squares(weight * values.Sum(v => (v - mean) * (v - mean)), Math.Max(0, values.Length - 1));
    }

    private static Squares Sum(IEnumerable<Squares> parts) => parts.Aggregate(default(Squares), (a, b) => new Squares(a.Sum + b.Sum, a.Freedom + b.Freedom));

    private readonly record struct Squares(double Sum, double Freedom)
    {
        public double Mean => Freedom > 0 ? Sum / Freedom : 0;
    }
}
