using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Fitting;
using SensorLab.Pixels.Planes;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>What the longest dark frames have more than the shortest ones: the sensor's own dark signal, or light.</summary>
/// <param name="Shortest">The dark level of the shortest exposure.</param>
/// <param name="Longest">The dark level of the longest exposure.</param>
/// <param name="RiseDn">The part that all channels share, in DN.</param>
/// <param name="LightDn">The part that follows the channels' sensitivities, in green's DN; null where these do not differ.</param>
/// <param name="TiltDn">What the rise changes from one side of the region to the other, in DN; the larger one of both directions.</param>
internal sealed record DarkRise(EvidenceLevel Shortest, EvidenceLevel Longest, Estimate RiseDn, Estimate? LightDn, Estimate TiltDn)
{
    /// <summary>Exposure ratio below which dark signal cannot be told from noise.</summary>
    private const double SmallestRatio = 2;

    /// <summary>Twice what black may be off, in DN.</summary>
    private const double SmallestLightDn = 0.1;

    /// <summary>What the longest dark frames have more, on the mean, in DN.</summary>
    public double TotalDn => RiseDn.Value + (LightDn?.Value ?? 0);

    /// <summary>Whether the rise falls off to one side: light, since a sensor's own dark signal is even.</summary>
    public bool IsTilted => TotalDn > SmallestLightDn && Math.Abs(TiltDn.Value) > SmallestLightDn
        && Math.Abs(TiltDn.Value) > Significance.Deviations * TiltDn.StandardUncertainty;

    /// <summary>Whether the rise follows the channels' sensitivities.</summary>
    public bool IsColoured => LightDn is { } light && IsLight(light);

    public double Seconds => Longest.Record.ExposureSeconds - Shortest.Record.ExposureSeconds;

    /// <summary>Compares the dark levels of an ISO; null where they have one exposure.</summary>
    public static DarkRise? Of(IsoEvidence evidence)
    {
        EvidenceLevel[] darks = [.. evidence.Darks.Where(d => d.Record.Frames > 1).OrderBy(d => d.Record.ExposureSeconds)];
        if (darks.Length < 2 || darks[^1].Record.ExposureSeconds < SmallestRatio * darks[0].Record.ExposureSeconds)
        {
            return null;
        }

        Estimate[] rises = [.. evidence.Channels.Select((_, c) => new Estimate(
            darks[^1].Record.Channels[c].MeanDn - darks[0].Record.Channels[c].MeanDn,
            Math.Sqrt(VarianceOfMean(darks[^1], c) + VarianceOfMean(darks[0], c) + (2 * evidence.Black.Drift.FrameDn2))))];
        double[]? sensitivities = evidence.Sensitivities();
        (Estimate rise, Estimate? light) = sensitivities is not null && SignalShare.AreDistinct(sensitivities) ? Split(rises, sensitivities) : (Mean(rises), null);
        Estimate across = Tilt(darks[0], darks[^1], lines => lines.ColumnsDn);
        Estimate down = Tilt(darks[0], darks[^1], lines => lines.RowsDn);
        return new DarkRise(darks[0], darks[^1], rise, light, Math.Abs(across.Value) > Math.Abs(down.Value) ? across : down);
    }

    /// <summary>Whether what follows the channels' sensitivities is light: it is beyond chance, and moves black by more than it may be off.</summary>
    /// <param name="lightDn">That part, in green's DN.</param>
    public static bool IsLight(Estimate lightDn) => lightDn.Value > SmallestLightDn && lightDn.Value > Significance.Deviations * lightDn.StandardUncertainty;

    private static double VarianceOfMean(EvidenceLevel level, int channel) => level.VarianceOfFrameMean(channel)!.Value / level.Record.Frames;

    private static Estimate Mean(Estimate[] rises) => new(rises.Average(r => r.Value), Math.Sqrt(rises.Sum(r => r.Variance)) / rises.Length);

    /// <summary>What all channels have more alike, and what follows their sensitivities; its uncertainty is no smaller than what is left over says.</summary>
    /// <param name="rises">What each channel has more, in DN.</param>
    /// <param name="sensitivities">Sensitivity of each relative to green.</param>
    public static (Estimate Rise, Estimate? Light) Split(Estimate[] rises, double[] sensitivities)
    {
        Matrix<double> design = Matrix<double>.Build.Dense(rises.Length, 2, (row, column) => (column == 0 ? 1 : sensitivities[row]) / rises[row].StandardUncertainty);
        Vector<double> observed = Vector<double>.Build.Dense(rises.Length, row => rises[row].Value / rises[row].StandardUncertainty);
        if (LinearLeastSquares.Fit(design, observed) is not { } fit)
        {
            return (Mean(rises), null);
        }

        double scatter = Math.Max(1, fit.ResidualVariance);
        return (new Estimate(fit.Parameters[0], Math.Sqrt(scatter * fit.UnitCovariance[0, 0])), new Estimate(fit.Parameters[1], Math.Sqrt(scatter * fit.UnitCovariance[1, 1])));
    }

    /// <summary>A straight line through the difference of both levels' line means, all channels on the mean.</summary>
    private static Estimate Tilt(EvidenceLevel shortest, EvidenceLevel longest, Func<LineMeans, double[]> lines)
    {
        double At(EvidenceLevel level, int i) => level.Statistics.Channels.Average(c => lines(c.Lines!)[i]);
        int count = lines(longest.Statistics.Channels[0].Lines!).Length;
        double[] rises = [.. Enumerable.Range(0, count).Select(i => At(longest, i) - At(shortest, i))];
        return WeightedLine.Fit([.. rises.Select((r, i) => ((double)i / count, r, 1.0))]) is { } line
            ? new Estimate(line.Slope, Math.Sqrt(line.ChiSquare / (count - 2) * line.SlopeVariance))
            : default;
    }
}
