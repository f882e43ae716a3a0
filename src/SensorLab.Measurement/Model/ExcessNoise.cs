using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Fitting;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>
/// Noise beyond the photons' that grows with the square of the signal: a response that wavers, light that bands or
/// flickers within a frame. Where levels are few and frames small it hides in the gain, whose uncertainty has to allow
/// for it.
/// </summary>
/// <remarks>
/// Variance of a channel at signal S: I + K·S + a·S², one a for all channels, since a response that wavers by √a does so
/// whatever the sensitivity. A negative a is a bend of the response and left to <see cref="Response.ResponseEstimator"/>.
/// </remarks>
/// <param name="Square">The excess a, dimensionless: the squared standard deviation of the response.</param>
internal sealed record ExcessNoise(Estimate Square)
{
    /// <summary>Share of saturation up to which levels witness: higher ones have pixels that clip, and less noise for it. The line itself stops at 70 %.</summary>
    private const double HighestShare = 0.9;

    /// <summary>How often a set has such a noise: one in twenty, which is an assumption. A fifth of it moves where doubt begins by a third of a deviation.</summary>
    private const double PriorOdds = 0.05;

    /// <summary>How large it is where it is there, in standard uncertainties of its own: what the levels could just tell. A larger one is found, a smaller one moves nothing.</summary>
    private const double PriorDeviations = 3;

    /// <summary>
    /// What doubt may at most add to the uncertainty of gain, as a factor: a plan's prediction must hold to within a
    /// quarter, a flawed set's to half as much again as the clean one's. Where doubt is larger, model-rejected says so, and
    /// gain's uncertainty carries all of it.
    /// </summary>
    private const double LargestFactor = 1.2;

    /// <summary>How many standard uncertainties the excess lies above none.</summary>
    public double Deviations => Square.Value / Square.StandardUncertainty;

    /// <summary>Looks for the excess in all channels together; null where no channel has levels enough.</summary>
    /// <param name="channels">The channels of an ISO.</param>
    /// <param name="blackVarianceDn2">Variance of a channel's black between frames beyond noise, in DN², by the channel's index.</param>
    public static ExcessNoise? Of(IReadOnlyList<ChannelModel> channels, Func<int, double> blackVarianceDn2)
    {
        Estimate[] squares = [.. channels.Select((c, i) => SquareOf(c, blackVarianceDn2(i))).OfType<Estimate>().Where(s => s.StandardUncertainty > 0 && double.IsFinite(s.Value))];
        return squares.Length == 0 ? null : new ExcessNoise(Estimate.WeightedMean(squares));
    }

    /// <summary>How much of an excess cannot be ruled out, as far as a gain's uncertainty allows for it.</summary>
    /// <param name="gainShift">By how much an excess of 1 moves the gain, 0 or more.</param>
    /// <param name="gainVariance">The gain's variance without it.</param>
    public double DoubtOf(double gainShift, double gainVariance) =>
        gainShift <= 0 ? 0
        : Deviations > Significance.DoubtfulExcess ? Doubt
        : Math.Min(Doubt, Math.Sqrt(((LargestFactor * LargestFactor) - 1) * gainVariance) / gainShift);

    /// <summary>Relative variance of a level's variance, and of what the line gives where its mean is off by row noise and drift.</summary>
    /// <param name="level">The level.</param>
    /// <param name="line">The line.</param>
    /// <param name="signal">The level's signal in DN.</param>
    /// <param name="blackVarianceDn2">Variance of black between frames in DN².</param>
    public static double RelativeVariance(ObservedLevel level, PhotonTransfer line, double signal, double blackVarianceDn2)
    {
        VarianceParts parts = level.Channel.TemporalParts!;
        double rows = level.Rows;
        double columns = level.Columns;
        double mean = ((Math.Max(0, parts.RowDn2) / rows) + (Math.Max(0, parts.ColumnDn2) / columns) + blackVarianceDn2) / level.Level.Frames;
        double degrees = 2 * Math.Pow(parts.PixelDn2 / parts.PixelUncertaintyDn2, 2);
        var point = new PhotonTransferPoint(signal, parts.PixelDn2, degrees, (double)level.Pixels * level.Level.Frames);
        double variance = PhotonTransferEstimator.VarianceOfVariance(line, point) + (line.GainDnPerElectron * line.GainDnPerElectron * mean);
        return variance / Math.Pow(line.VarianceAt(signal), 2);
    }

    /// <summary>
    /// Root of the excess's expected square: the posterior of an excess that is most often none, else as large as could
    /// just be told.
    /// </summary>
    /// <remarks>
    /// With z the deviations, τ their prior scale and s = τ²/(1 + τ²): an excess of 0 or more has, where there is one, a
    /// normal posterior of mean s·z and variance s, cut off at 0, and the odds 2Φ(√s·z)·e^(s·z²/2)/√(1 + τ²) times the prior's.
    /// </remarks>
    private double Doubt
    {
        get
        {
            double shrinking = PriorDeviations * PriorDeviations / (1 + (PriorDeviations * PriorDeviations));
            double root = Math.Sqrt(shrinking) * Deviations;
            double positive = Normal.CDF(0, 1, root);
            if (!(positive > 0))
            {
                return 0;
            }

            double odds = PriorOdds * 2 * positive * Math.Exp(root * root / 2) / Math.Sqrt(1 + (PriorDeviations * PriorDeviations));
            double share = double.IsFinite(odds) ? odds / (1 + odds) : 1;
            double square = shrinking * (1 + (root * root) + (root * Normal.PDF(0, 1, root) / positive));
            return Math.Sqrt(share * Math.Max(0, square)) * Square.StandardUncertainty;
        }
    }

    private static PhotonTransferPoint PointOf(ChannelModel channel, ObservedLevel level) =>
        PhotonTransferPoint.Of(level, channel.Noise[NoiseParameter.BlackDn], channel.Noise.Response, channel.CodeStepDn, channel.BlackDrift);

    private static Estimate? SquareOf(ChannelModel channel, double blackVarianceDn2)
    {
        if (channel.PhotonTransfer is not { DegreesOfFreedom: > 2 } line)
        {
            return null;
        }

        ObservedLevel[] levels = [.. channel.Levels.Where(l => channel.FitLevels.Contains(l.Level) || IsWitness(channel, l))];
        PhotonTransferPoint[] points = [.. levels.Select(l => PointOf(channel, l))];
        double[] deviations = [.. points.Select((p, i) => Math.Sqrt(RelativeVariance(levels[i], line, p.SignalDn, blackVarianceDn2)) * line.VarianceAt(p.SignalDn))];
        return VarianceParabola.Square([.. points.Select(p => p.SignalDn)], [.. points.Select(p => p.VarianceDn2)], deviations);
    }

    /// <summary>Whether a level that is too bright for the line still tells an excess (a bend is only known below); one that is too dim for it, its codes coarse, does not.</summary>
    private static bool IsWitness(ChannelModel channel, ObservedLevel level) =>
        !level.IsDark && level.Channel is { TemporalParts: not null, ClippedFraction: <= 0 } && channel.Noise.Response.BendPerDn == 0
        && channel.Levels.All(l => l.Channel.MeanDn < level.Channel.MeanDn || !channel.FitLevels.Contains(l.Level))
        && level.Channel.MeanDn - channel.Noise[NoiseParameter.BlackDn] < HighestShare * channel.Noise.SaturationSignalDn;
}

/// <summary>What variances hold beside the photon-transfer line: a in I + K·S + a·S².</summary>
internal static class VarianceParabola
{
    private const int Terms = 3;

    /// <summary>The term of the squared signal.</summary>
    /// <param name="signalsDn">Signals in DN.</param>
    /// <param name="variancesDn2">Variances in DN².</param>
    /// <param name="deviationsDn2">Standard uncertainties of the variances in DN².</param>
    /// <returns>The term, dimensionless; null where the levels do not determine it.</returns>
    public static Estimate? Square(double[] signalsDn, double[] variancesDn2, double[] deviationsDn2) =>
        Fit(signalsDn, variancesDn2, deviationsDn2) is { } fit ? new Estimate(fit.Parameters[2], Math.Sqrt(fit.UnitCovariance[2, 2])) : null;

    /// <summary>The variance at no signal, as uncertain as the levels scatter about their own parabola.</summary>
    /// <param name="signalsDn">Signals in DN.</param>
    /// <param name="variancesDn2">Variances in DN².</param>
    /// <param name="deviationsDn2">Standard uncertainties of the variances in DN².</param>
    /// <returns>The variance in DN²; null where the levels do not determine it.</returns>
    public static Estimate? Intercept(double[] signalsDn, double[] variancesDn2, double[] deviationsDn2) =>
        Fit(signalsDn, variancesDn2, deviationsDn2) is { DegreesOfFreedom: > 0 } fit
            ? new Estimate(fit.Parameters[0], Math.Sqrt(ChiSquareTest.ScatterFactor(fit.ResidualSquares, fit.DegreesOfFreedom) * fit.UnitCovariance[0, 0]))
            : null;

    private static LinearFit? Fit(double[] signalsDn, double[] variancesDn2, double[] deviationsDn2)
    {
        Matrix<double> design = Matrix<double>.Build.Dense(signalsDn.Length, Terms, (row, power) => Math.Pow(signalsDn[row], power) / deviationsDn2[row]);
        Vector<double> observed = Vector<double>.Build.Dense(signalsDn.Length, row => variancesDn2[row] / deviationsDn2[row]);
        return LinearLeastSquares.Fit(design, observed);
    }
}
