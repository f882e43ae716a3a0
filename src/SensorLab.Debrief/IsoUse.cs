using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>How the frames of an ISO used it.</summary>
public sealed record IsoUse
{
    /// <summary>The standard deviation of a median over that of the mean, for normal values (√(π/2)).</summary>
    private const double MedianFactor = 1.2533141373155;

    /// <summary>The standard uncertainty of what is reckoned beyond the clip by a channel that did not clip: another colour than its surroundings' is a tenth of a stop off.</summary>
    private const double ReckonedUncertaintyEv = 0.1;

    /// <summary>A median known to no better than this says nothing: too few frames that differ.</summary>
    private const double WidestEv = 2;

    /// <summary>The ISO.</summary>
    public required int Iso { get; init; }

    /// <summary>Frames.</summary>
    public required int Frames { get; init; }

    /// <summary>Frames of which a thousandth or more is clipped.</summary>
    public required int ClippedFrames { get; init; }

    /// <summary>Frames in which every channel of the brightest surfaces clips: nothing tells by how much.</summary>
    public required int UnknownFrames { get; init; }

    /// <summary>
    /// The median change of exposure that would have brought the brightest surfaces to the clip, in EV, with the interval that
    /// the median of such frames lies in; a bound where too many frames clip in every channel; null where the frames are too few and differ too much.
    /// </summary>
    public Figure? ExposeToClipEv { get; init; }

    /// <summary>A quarter of the frames could have had this or less; null where it is not known.</summary>
    public double? LowerQuartileEv { get; init; }

    /// <summary>A quarter could have had this or more; null where it is not known.</summary>
    public double? UpperQuartileEv { get; init; }

    /// <summary>Sums the frames of an ISO up.</summary>
    internal static IsoUse Of(int iso, IReadOnlyList<FrameDebrief> frames)
    {
        // A frame that clips in every channel stands below all that are known: the order is known where its size is not.
        double[] changes = [.. frames.Select(ChangeOf).OfType<double>().Order()];
        int unknown = frames.Count(f => f.ExposeToClipAtMostEv is not null);
        double? median = Quantile.Of(changes, 0.5);
        double? lower = Quantile.Of(changes, 0.25);
        return new IsoUse
        {
            Iso = iso,
            Frames = frames.Count,
            ClippedFrames = frames.Count(f => f.HeadroomLeftEv <= 0),
            UnknownFrames = unknown,
            ExposeToClipEv = median is not { } value ? null
                : double.IsFinite(value) ? FigureOf(value, changes, frames)
                : Figure.UpperBound(frames.Select(f => f.ExposeToClipAtMostEv).OfType<double>().Max()),
            LowerQuartileEv = lower is { } low && double.IsFinite(low) ? low : null,
            UpperQuartileEv = Quantile.Of(changes, 0.75) is { } high && double.IsFinite(high) ? high : null,
        };
    }

    private static double? ChangeOf(FrameDebrief frame) =>
        frame.ExposeToClipEv ?? (frame.ExposeToClipAtMostEv is not null ? double.NegativeInfinity : null);

    private static Figure? FigureOf(double median, double[] changes, IReadOnlyList<FrameDebrief> frames)
    {
        double[] known = [.. changes.Where(double.IsFinite)];
        double clip = frames.Max(f => f.ClipStandardUncertaintyEv);
        double reckoned = median < 0 ? ReckonedUncertaintyEv : 0;
        double mean = known.Average();
        double scatter = known.Length > 1 ? Math.Sqrt(known.Sum(c => (c - mean) * (c - mean)) / (known.Length - 1)) : 0;
        double ofMedian = MedianFactor * scatter / Math.Sqrt(known.Length);
        double half = double.Hypot(Figure.NormalFactor95 * double.Hypot(clip, reckoned), StudentTail.Factor95(Math.Max(1, known.Length - 1)) * ofMedian);
        return half > WidestEv ? null : Figure.Estimate(median, Math.Sqrt((clip * clip) + (reckoned * reckoned) + (ofMedian * ofMedian)), median - half, median + half);
    }
}
