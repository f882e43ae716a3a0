using SensorLab.Law;

namespace SensorLab.Measurement.Levels;

/// <summary>Means of an ISO's dark frames, before anything is fitted to them: how far a lit frame's black may be off.</summary>
/// <param name="MeansDn">Mean of each frame in DN, one frame or more.</param>
internal sealed record DarkMeans(IReadOnlyList<double> MeansDn)
{
    /// <summary>Chance that a lit frame's black lies further off, as few dark frames tell of it.</summary>
    private const double Beyond = 1e-4;

    /// <summary>Black in DN.</summary>
    public double BlackDn => MeansDn.Average();

    /// <summary>Standard deviation of a frame's black in DN; 0 of a single frame, which tells none.</summary>
    public double ScatterDn => MeansDn.Count < 2 ? 0 : Math.Sqrt(MeansDn.Sum(m => (m - BlackDn) * (m - BlackDn)) / (MeansDn.Count - 1));

    /// <summary>How far a lit frame's black may be off, in DN: two dark frames that happen to agree do not say that black stands still.</summary>
    /// <param name="deviations">Standard deviations that count as far where there are many dark frames.</param>
    public double ReachDn(double deviations) =>
        MeansDn.Count < 2 ? 0 : ScatterDn * Math.Max(deviations, StudentTail.Quantile(Beyond, MeansDn.Count - 1));
}
