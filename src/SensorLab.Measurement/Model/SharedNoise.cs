using SensorLab.Law;
using SensorLab.Measurement.Codes;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Model;

/// <summary>
/// What photon transfer and fixed pattern share: a level's fixed pattern is what is left when its temporal variance over
/// the number of frames is taken off, so that what one has too much the other has too little.
/// </summary>
internal static class SharedNoise
{
    /// <summary>Gives a model the covariance of its line and its pattern.</summary>
    /// <param name="model">The model.</param>
    /// <param name="levels">Levels that both were fitted to.</param>
    /// <param name="points">The same levels as the line sees them.</param>
    /// <param name="transfer">The line; null leaves the model as it is.</param>
    /// <param name="lines">Temporal variance of rows and columns in DN².</param>
    /// <param name="darkCodes">What took the place of dark levels in both; null where their mean and variance served.</param>
    public static NoiseModel Into(NoiseModel model, ChannelLevel[] levels, PhotonTransferPoint[] points, PhotonTransfer? transfer, VarianceSummary lines, RoundedNormal? darkCodes)
    {
        if (transfer is null)
        {
            return model;
        }

        double black = model[NoiseParameter.BlackDn];
        double[] variances = [.. points.Select(p => PhotonTransferEstimator.VarianceOfVariance(transfer, p))];
        WeightedLine? line = WeightedLine.Fit([.. points.Select((p, i) => (p.SignalDn, p.VarianceDn2, 1 / variances[i]))]);
        WeightedLine? pattern = FixedPatternEstimator.Line([.. levels.Select((l, i) => new FixedPatternPoint(model.Response.ResponsiveSignalOf(l.Channel.MeanDn - black), 0, FixedPatternFitter.Total(l.Channel.FixedPatternParts!).StandardUncertainty))]);
        if (line is null || pattern is null)
        {
            return model;
        }

        // A black that moved is in the line's point and not in the pattern's.
        double[] noise = [.. points.Select(p => PhotonTransferEstimator.VarianceOfVariance(transfer, p with { SignalVarianceDn2 = 0 }))];
        double Shared(Func<int, double> first, Func<int, double> second) =>
            -levels.Select((l, i) => first(i) * second(i) * noise[i] / l.Level.Frames).Sum();
        NoiseModel lit = model.WithCovariance(NoiseParameter.GainDnPerElectron, NoiseParameter.PrnuSquare, Shared(line.SlopeSensitivity, pattern.SlopeSensitivity));
        if (darkCodes is not null)
        {
            // What the codes' spread holds of rows and columns was taken off their pattern whole.
            return WithCodes(lit, darkCodes.Covariance).WithCovariance(NoiseParameter.RowColumnDn2, NoiseParameter.DsnuSquareDn2, -lines.MeasuredDn4);
        }

        // A level has the share (variance of the estimate)/(its own variance) in the lines' estimate: its own cancels.
        double ofLines = levels.Select((l, i) => pattern.InterceptSensitivity(i) / l.Level.Frames).Sum();
        return lit
            .WithCovariance(NoiseParameter.RowColumnDn2, NoiseParameter.DsnuSquareDn2, -ofLines * lines.Sum.Variance)
            .WithCovariance(NoiseParameter.InterceptDn2, NoiseParameter.DsnuSquareDn2, Shared(line.InterceptSensitivity, pattern.InterceptSensitivity))
            .WithCovariance(NoiseParameter.InterceptDn2, NoiseParameter.PrnuSquare, Shared(line.InterceptSensitivity, pattern.SlopeSensitivity))
            .WithCovariance(NoiseParameter.GainDnPerElectron, NoiseParameter.DsnuSquareDn2, Shared(line.SlopeSensitivity, pattern.InterceptSensitivity));
    }

    private static NoiseModel WithCodes(NoiseModel model, RoundedCovariance codes) => model
        .WithCovariance(NoiseParameter.BlackDn, NoiseParameter.InterceptDn2, codes.MeanAndTemporalDn3)
        .WithCovariance(NoiseParameter.BlackDn, NoiseParameter.DsnuSquareDn2, codes.MeanAndPatternDn3)
        .WithCovariance(NoiseParameter.InterceptDn2, NoiseParameter.DsnuSquareDn2, codes.TemporalAndPatternDn4);
}
