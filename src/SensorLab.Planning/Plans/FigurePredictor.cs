using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>Predicts the uncertainty of gain, read noise and latitude from the frames that a plan asks for.</summary>
/// <remarks>
/// <para>
/// EMVA 1288 R4 Linear, photon transfer: σ_t² = σ_d² + σ_q² + K·S. A level of n frames and N pixels tells its variance v with
/// 2v²/ν + K²·u²(S), ν = (n − 1)·N less what the high-pass takes (arXiv:2301.08790 for the weights). The inverse of the summed
/// Fisher information of K and the intercept over all levels below 70 % of saturation gives their covariance; that of the fixed
/// pattern's line in S² goes beside it. Figures follow from the noise model by propagation (GUM, clause 5.1.2).
/// </para>
/// <para>
/// Not predicted: what light, shutter and temperature add between levels; the bend of a response is taken for known. Below half
/// a code step the rounded normal does better than this where black lies well, and worse where it lies half-way: there no
/// prediction is given.
/// </para>
/// </remarks>
internal static class FigurePredictor
{
    /// <summary>The criterion of the shadow end where none is named.</summary>
    public const double ShadowSnr = 10;

    private const double ClipMargin = 1.05;
    private const double MeterStepEv = 1.0 / 3;

    /// <summary>Both edges of the zero are read.</summary>
    private const int MeterReadings = 2;
    private const double SmallestNoiseSteps = 0.5;

    // Blocks whose row and column means are taken out, so that shading does not pass for noise.
    private const double SmallBlock = 32;
    private const double LargeBlock = 64;
    private const double LargePlanePixels = 1e6;

    /// <summary>The prediction for an ISO.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="body">What is expected of the body.</param>
    /// <param name="sensor">What is expected of its sensor at the ISO.</param>
    /// <param name="steps">The plan's steps.</param>
    /// <returns>The prediction; null where the noise is below half a code step, or where the frames determine no line.</returns>
    public static PlanPrediction? Of(Protocol protocol, BodyExpectation body, SensorExpectation sensor, IReadOnlyList<PlanStep> steps)
    {
        PlanStep[] own = [.. steps.Where(s => s.Iso == sensor.Iso && s.Role != RoleName.Light)];
        double brightest = own.Select(s => SignalDn(s, sensor)).DefaultIfEmpty(0).Max();
        double top = FitRange.HighestShare * Math.Min(brightest, sensor.Noise.SaturationSignalDn);
        Level[] levels = [.. LevelsOf(own, sensor, body.PixelsPerChannel).Where(l => l.SignalDn < top)];
        if (sensor.ReadNoiseDn < SmallestNoiseSteps * sensor.CodeStepDn || !levels.Any(l => l.SignalDn > 0) || levels.All(l => l.SignalDn > 0)
            || CovarianceOf(levels, body, sensor, protocol.Metered.FramesPerEdge, own.Where(s => s.Role == RoleName.Dark).Sum(s => s.Frames)) is not { } covariance)
        {
            return null;
        }

        var told = new NoiseModel([.. Enum.GetValues<NoiseParameter>().Select(p => sensor.Noise[p])], [new CovariancePart(covariance, double.PositiveInfinity)]);
        Figure? Predicted(Func<NoiseModel, double> quantity, double channels = 1) => told.Evaluate(quantity) is { } estimate
            ? Figure.Normal(estimate.Value, estimate.StandardUncertainty / Math.Sqrt(channels))
            : null;
        return WithBudgets(
            new PlanPrediction(
                sensor.Iso,
                Predicted(m => 1 / m[NoiseParameter.GainDnPerElectron])!,
                Predicted(m => Math.Sqrt(Math.Max(0, m.TemporalVarianceAt(0) - sensor.RoundingDn2)) / m[NoiseParameter.GainDnPerElectron])!,
                brightest > ClipMargin * sensor.Noise.SaturationSignalDn ? Predicted(m => m.AboveEv(), body.Greens) : null,
                Predicted(m => m.BelowEv(ShadowSnr), body.Greens),
                MeterStepEv / Math.Sqrt(12 * MeterReadings)),
            own);
    }

    /// <summary>What a set shot anew would respect: the figures' budgets as the profile of this plan will state them.</summary>
    private static PlanPrediction WithBudgets(PlanPrediction noise, PlanStep[] steps)
    {
        IsoProfile iso = FigureBudgets.Complete(
            new IsoProfile
            {
                Iso = noise.Iso,
                MeterReadings = MeterReadings,
                Channels = [new ChannelProfile { Name = "Y", GainElectronPerDn = noise.GainElectronPerDn, ReadNoiseElectron = noise.ReadNoiseElectron, Latitude = new ChannelLatitude() }],
                Latitude = new IsoLatitude { AboveEv = noise.AboveEv, BelowEv = [new ShadowEnd { Snr = ShadowSnr, PerPixel = noise.BelowEv }] },
                Levels = [.. steps.Where(s => s.Role == RoleName.Metered).Select(s => new LevelRecord
                {
                    Role = s.Role,
                    ExposureSeconds = s.ExposureSeconds,
                    Frames = s.Frames,
                    PixelsPerChannel = 0,
                    Channels = [],
                })],
            },
            MeterStepEv);
        return noise with
        {
            GainElectronPerDn = iso.Channels[0].GainElectronPerDn!,
            ReadNoiseElectron = iso.Channels[0].ReadNoiseElectron!,
            AboveEv = iso.Latitude.AboveEv,
            BelowEv = iso.Latitude.BelowEv[0].PerPixel,
        };
    }

    private static double SignalDn(PlanStep step, SensorExpectation sensor) => step.Ev is { } ev && step.Role != RoleName.Dark ? sensor.SignalDnAt(ev) : 0;

    private static IEnumerable<Level> LevelsOf(PlanStep[] steps, SensorExpectation sensor, double pixels)
    {
        NoiseModel noise = sensor.Noise;
        double gain = noise[NoiseParameter.GainDnPerElectron];
        double side = pixels > LargePlanePixels ? LargeBlock : SmallBlock;
        double passed = (1 - (1 / side)) * (1 - (1 / side));
        foreach (IGrouping<(string Role, string Shutter, string? LightStep), PlanStep> level in steps.GroupBy(s => (s.Role, s.Shutter, s.LightStep)))
        {
            double signal = SignalDn(level.First(), sensor);
            int frames = level.Sum(s => s.Frames);
            double temporal = noise.TemporalVarianceAt(signal);
            double degrees = (frames - 1) * pixels * passed;
            double shotDn2 = gain * noise.Response.ShotSignalOf(signal);
            double uncertainty = (2 * temporal * temporal / degrees) + (gain * gain * shotDn2 / (frames * pixels));
            double pattern = noise.TotalVarianceAt(signal) - temporal + (temporal / frames);
            if (frames > 1)
            {
                yield return new Level(signal, frames, temporal, uncertainty, (2 * pattern * pattern / (pixels * passed)) + (uncertainty / (frames * frames)));
            }
        }
    }

    private static Matrix<double>? CovarianceOf(Level[] levels, BodyExpectation body, SensorExpectation sensor, int meteredFrames, int darkFrames)
    {
        NoiseModel noise = sensor.Noise;
        double pixels = body.PixelsPerChannel;
        double dsnuSquare = noise.DsnuSquareDn2;
        double prnuSquare = noise.PrnuSquare;
        if (WeightedLine.Fit([.. levels.Select(l => (noise.Response.ShotSignalOf(l.SignalDn), l.TemporalDn2, 1 / l.TemporalUncertaintyDn4))]) is not { } transfer
            || WeightedLine.Fit([.. levels.Select(l => (Math.Pow(noise.Response.ResponsiveSignalOf(l.SignalDn), 2), l.TemporalDn2, 1 / l.PatternUncertaintyDn4))]) is not { } pattern)
        {
            return null;
        }

        Matrix<double> covariance = Matrix<double>.Build.Dense(NoiseModel.Size, NoiseModel.Size);
        void Set(NoiseParameter first, NoiseParameter second, double value) =>
            covariance[(int)first, (int)second] = covariance[(int)second, (int)first] = value;

        // The temporal variance of n frames goes into their mean with 1/n.
        double Shared(Func<int, double> first, Func<int, double> second) => -levels.Select((l, i) => first(i) * second(i) * l.TemporalUncertaintyDn4 / l.Frames).Sum();

        Set(NoiseParameter.GainDnPerElectron, NoiseParameter.GainDnPerElectron, transfer.SlopeVariance);
        Set(NoiseParameter.InterceptDn2, NoiseParameter.InterceptDn2, transfer.InterceptVariance);
        Set(NoiseParameter.GainDnPerElectron, NoiseParameter.InterceptDn2, transfer.Covariance);

        // A line's mean tells its own variance by as many lines as there are: rows and columns of a region 3 : 2.
        double rows = Math.Sqrt(pixels / 1.5);
        double columns = 1.5 * rows;
        double pooled = 1 / levels.Sum(l => (l.Frames - 1) * pixels / (2 * l.TemporalDn2 * l.TemporalDn2));
        Set(NoiseParameter.RowDn2, NoiseParameter.RowDn2, pooled * ((1 / rows) + (1 / columns)));
        Set(NoiseParameter.PixelDsnuSquareDn2, NoiseParameter.PixelDsnuSquareDn2, pattern.InterceptVariance + (2 * dsnuSquare * dsnuSquare / pixels));
        Set(NoiseParameter.PixelPrnuSquare, NoiseParameter.PixelPrnuSquare, pattern.SlopeVariance + (2 * prnuSquare * prnuSquare / pixels));
        Set(NoiseParameter.PixelDsnuSquareDn2, NoiseParameter.PixelPrnuSquare, pattern.Covariance);
        Set(NoiseParameter.GainDnPerElectron, NoiseParameter.PixelDsnuSquareDn2, Shared(transfer.SlopeSensitivity, pattern.InterceptSensitivity));
        Set(NoiseParameter.GainDnPerElectron, NoiseParameter.PixelPrnuSquare, Shared(transfer.SlopeSensitivity, pattern.SlopeSensitivity));
        Set(NoiseParameter.InterceptDn2, NoiseParameter.PixelDsnuSquareDn2, Shared(transfer.InterceptSensitivity, pattern.InterceptSensitivity));
        Set(NoiseParameter.InterceptDn2, NoiseParameter.PixelPrnuSquare, Shared(transfer.InterceptSensitivity, pattern.SlopeSensitivity));

        // Means of these pixels stand for the body's: their fixed pattern is part of what is not known.
        double MeanVarianceDn2(double signalDn, int frames) => noise.TotalVarianceAt(signalDn) - noise.TemporalVarianceAt(signalDn) + (noise.TemporalVarianceAt(signalDn) / frames);
        Set(NoiseParameter.BlackDn, NoiseParameter.BlackDn, MeanVarianceDn2(0, Math.Max(1, darkFrames)) / pixels);
        Set(NoiseParameter.GreyMeanDn, NoiseParameter.GreyMeanDn, MeanVarianceDn2(sensor.SignalDnAt(IsoLayoutBuilder.EdgeEv), meteredFrames) / body.SpotPixelsPerChannel);
        return covariance;
    }

    /// <summary>A level as it will enter the fits: its signal, its frames, and what is known of its variances.</summary>
    /// <param name="SignalDn">Recorded signal in DN; 0 for a dark level.</param>
    /// <param name="Frames">Frames, two or more.</param>
    /// <param name="TemporalDn2">Temporal variance of a pixel in DN².</param>
    /// <param name="TemporalUncertaintyDn4">Variance of the estimate of that, in DN⁴.</param>
    /// <param name="PatternUncertaintyDn4">Variance of the estimate of the fixed pattern's variance, in DN⁴.</param>
    private readonly record struct Level(double SignalDn, int Frames, double TemporalDn2, double TemporalUncertaintyDn4, double PatternUncertaintyDn4);
}
