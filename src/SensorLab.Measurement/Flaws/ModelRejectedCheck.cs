using MathNet.Numerics.LinearAlgebra;
using SensorLab.Measurement.Latitude;
using SensorLab.Measurement.Noise;
using SensorLab.Measurement.Uncertainty;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Flaws;

/// <summary>model-rejected: variances leave the photon-transfer line beyond chance and by more than a gain may be off.</summary>
internal sealed class ModelRejectedCheck : IIsoCheck
{
    /// <summary>Root mean square of the relative residuals beyond noise, or what a parabola adds at the brightest point: what gain may be off.</summary>
    private const double SmallestResidual = 0.01;

    /// <summary>
    /// Standard deviations of the parabola's own term: one test a channel, with the sign and shape of what moves gain, where
    /// the sum over all points drowns it.
    /// </summary>
    private const double ParabolaDeviations = 4;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        List<(string Name, double Residual, double Wavering)> rejected = [];
        foreach (ChannelModel channel in evidence.Channels.Where(c => c.PhotonTransfer is { DegreesOfFreedom: > 2 }))
        {
            PhotonTransfer line = channel.PhotonTransfer!;
            double black = DarkScatter.VarianceDn2(evidence, evidence.Channels.ToList().IndexOf(channel));
            Misfit misfit = MisfitOf(channel, line, black);
            bool scattered = ChiSquareTest.Deviations(misfit.ChiSquare, line.DegreesOfFreedom) > Significance.Deviations && misfit.Residual > SmallestResidual;
            if (scattered || (misfit.ParabolaDeviations > ParabolaDeviations && misfit.ParabolaShare > SmallestResidual))
            {
                rejected.Add((channel.Name, Math.Max(misfit.Residual, misfit.ParabolaShare), misfit.Wavering));
            }
        }

        if (rejected.Count > 0)
        {
            string[] names = [.. rejected.Select(r => r.Name)];
            double residual = rejected.Max(r => r.Residual);
            yield return FlawFinding.Warning(
                FindingCode.ModelRejected,
                evidence.Iso,
                rejected.Max(r => r.Wavering),
                "relative",
                $"At ISO {evidence.Iso} noise does not grow with light as photons make it ({FlawFinding.Listed(names)}): points lie {residual:P1} off the line. Gain, read noise and all that follows from them stand only as well as that; not compensated.",
                "Look at the points of the noise chart; shoot the bracket again under a steady lamp, with in-camera noise reduction switched off.").For(names, evidence.Channels.Count).In(evidence.Levels.Where(l => l.Record.Channels.Any(c => c.UsedInFit)));
        }
    }

    private static Misfit MisfitOf(ChannelModel channel, PhotonTransfer line, double blackVarianceDn2)
    {
        ChannelLevel[] levels = [.. channel.Levels.Where(l => channel.FitLevels.Contains(l.Level))];
        double black = channel.Noise[NoiseParameter.BlackDn];
        PhotonTransferPoint[] points = [.. levels.Select(l => ChannelModelBuilder.ToPoint(l, black, channel.Noise.Response, channel.CodeStepDn, channel.BlackDrift))];
        double[] signals = [.. points.Select(p => p.SignalDn)];
        double[] expected = [.. signals.Select(line.VarianceAt)];
        double[] relative = [.. points.Select((p, i) => p.VarianceDn2 / expected[i])];
        double[] noises = [.. levels.Select((l, i) => RelativeVariance(l, line, signals[i], blackVarianceDn2))];
        double residual = Math.Sqrt(Math.Max(0, relative.Average(r => (r - 1) * (r - 1)) - noises.Average()));
        double chiSquare = relative.Zip(noises).Sum(p => (p.First - 1) * (p.First - 1) / p.Second);
        Matrix<double> design = Matrix<double>.Build.Dense(levels.Length, 3, (row, power) => Math.Pow(signals[row], power) / expected[row] / Math.Sqrt(noises[row]));
        Vector<double> observed = Vector<double>.Build.Dense(levels.Length, row => relative[row] / Math.Sqrt(noises[row]));
        Matrix<double> triangle = design.QR().R;
        double square = design.QR().Solve(observed)[2];

        // The last row of R alone holds what the square's term has beside the others.
        double deviations = Math.Abs(square * triangle[2, 2]);
        double top = signals.Max();
        return new Misfit(residual, Math.Sqrt(Math.Abs(square)), chiSquare, Math.Abs(square) * top * top / line.VarianceAt(top), deviations);
    }

    /// <summary>Relative variance of a level's variance, and of what the line gives where its mean is off by row noise and drift.</summary>
    private static double RelativeVariance(ChannelLevel level, PhotonTransfer line, double signal, double blackVarianceDn2)
    {
        VarianceParts parts = level.Channel.TemporalParts!;
        double rows = level.Rows;
        double columns = level.Level.PixelsPerChannel / rows;
        double mean = ((Math.Max(0, parts.RowDn2) / rows) + (Math.Max(0, parts.ColumnDn2) / columns) + blackVarianceDn2) / level.Level.Frames;
        double degrees = 2 * Math.Pow(parts.PixelDn2 / parts.PixelUncertaintyDn2, 2);
        var point = new PhotonTransferPoint(signal, parts.PixelDn2, degrees, (double)level.Level.PixelsPerChannel * level.Level.Frames);
        double variance = PhotonTransferEstimator.VarianceOfVariance(line, point) + (line.GainDnPerElectron * line.GainDnPerElectron * mean);
        return variance / Math.Pow(line.VarianceAt(signal), 2);
    }

    /// <summary>How a channel's variances leave the line.</summary>
    /// <param name="Residual">Root mean square of the relative residuals beyond noise.</param>
    /// <param name="Wavering">The wavering w of response that would explain them: w²·S² of variance beside the line.</param>
    /// <param name="ChiSquare">Squared residuals over their variances.</param>
    /// <param name="ParabolaShare">What a term of S² has of the variance at the brightest point.</param>
    /// <param name="ParabolaDeviations">That term over its standard uncertainty.</param>
    private sealed record Misfit(double Residual, double Wavering, double ChiSquare, double ParabolaShare, double ParabolaDeviations);
}
