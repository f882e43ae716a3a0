using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Black;

/// <summary>How far the means of an ISO's dark frames lie apart, dark signal aside: what black is said to be certain to.</summary>
/// <param name="RangeDn">The largest difference of two frames, channels on the mean, in DN.</param>
/// <param name="IsDrift">Whether black drifts beyond chance, and so that it counts.</param>
internal sealed record DarkRange(double RangeDn, bool IsDrift)
{
    /// <summary>A tenth of a code: twice what black may be off.</summary>
    private const double SmallestDn = 0.1;

    /// <summary>Whether lit frames, too, may have another black.</summary>
    public bool MovesLitFrames => IsDrift && RangeDn > SmallestDn;

    public static DarkRange Of(IsoEvidence evidence)
    {
        IReadOnlyList<ChannelLevel> darks = DarkSignal.WithoutIt(ChannelLevel.Of(evidence.Darks.Select(d => d.Record), evidence.Channels[0].Name));
        return BlackMoments.Scatter([.. darks.Select(d => d.Level)]) is { } scatter ? new DarkRange(scatter.RangeDn, scatter.Matters) : new DarkRange(0, false);
    }
}
