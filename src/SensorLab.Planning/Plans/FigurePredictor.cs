using MathNet.Numerics.LinearAlgebra;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;

namespace SensorLab.Planning.Plans;

/// <summary>Predicts the uncertainty of gain, read noise and latitude from the frames that a plan asks for.</summary>
/// <remarks>
/// <para>
/// EMVA 1288 R4 Linear, photon transfer: σ_t² = σ_d² + σ_q² + k·S, in e⁻ of the expected gain, so that k = 1 and u(k) is the
/// relative uncertainty of the gain. A level of n frames and N pixels tells its variance v with 2v²/ν + S/(nN), ν = (n − 1)·N
/// less what the high-pass takes (arXiv:2301.08790 for the weights). The inverse of the summed Fisher information of k and the
/// intercept over all levels below 70 % of saturation gives their covariance; that of the fixed pattern's line in S² goes beside
/// it. Latitude follows by propagation (GUM, clause 5.1.2).
/// </para>
/// <para>
/// Not predicted: what light, shutter and temperature add between levels. Below half a code step the rounded normal does better
/// than this where black lies well, and worse where it lies half-way: there no prediction is given.
/// </para>
/// </remarks>
internal static class FigurePredictor
{
    /// <summary>The criterion of the shadow end where none is named.</summary>
    public const double ShadowSnr = 10;

    private const double FitShare = 0.7;
    private const double ClipMargin = 1.05;
    private const double MeterStepEv = 1.0 / 3;
    private const double Normal95 = 1.959963984540054;
    private const double SmallestNoiseSteps = 0.5;

    // Blocks whose row and column means are taken out, so that shading does not pass for noise.
    private const double SmallBlock = 32;
    private const double LargeBlock = 64;
    private const double LargePlanePixels = 1e6;

    // Places of the parameters: slope, intercept, rows and columns, DSNU², PRNU², black, grey.
    private const int Parameters = 7;

    /// <summary>The prediction for an ISO.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="body">What is expected of the body.</param>
    /// <param name="sensor">What is expected of its sensor at the ISO.</param>
    /// <param name="steps">The plan's steps.</param>
    /// <returns>The prediction; null where the noise is below half a code step, or where the frames determine no line.</returns>
    public static PlanPrediction? Of(Protocol protocol, BodyExpectation body, SensorExpectation sensor, IReadOnlyList<PlanStep> steps)
    {
        PlanStep[] own = [.. steps.Where(s => s.Iso == sensor.Iso && s.Role != "light")];
        double brightest = own.Select(s => SignalOf(s, sensor)).DefaultIfEmpty(0).Max();
        PlannedVariance[] levels = [.. LevelsOf(own, sensor, body.PixelsPerChannel).Where(l => l.SignalElectron < FitShare * Math.Min(brightest, sensor.SaturationElectron))];
        if (sensor.ReadNoiseElectron < SmallestNoiseSteps * sensor.GainElectronPerDn || !levels.Any(l => l.SignalElectron > 0) || levels.All(l => l.SignalElectron > 0))
        {
            return null;
        }

        Matrix<double> covariance = CovarianceOf(levels, body, sensor, protocol.Metered.FramesPerEdge, own.Where(s => s.Role == "dark").Sum(s => s.Frames));
        double[] expected = [1, sensor.DarkVarianceElectron2, 0, sensor.DsnuElectron * sensor.DsnuElectron, sensor.PrnuFraction * sensor.PrnuFraction, 0, sensor.GreyElectron];
        double quantisation = sensor.GainElectronPerDn * sensor.GainElectronPerDn / 12;
        double Uncertainty(Func<double[], double> of) => UncertaintyOf(of, expected, covariance);
        double greens = Math.Sqrt(body.Greens);
        double above = Math.Log2(sensor.SaturationElectron / sensor.GreyElectron);
        double? shadow = sensor.ElectronAtSnr(ShadowSnr);
        return new PlanPrediction(
            sensor.Iso,
            FigureOf(sensor.GainElectronPerDn, sensor.GainElectronPerDn * Uncertainty(p => p[0])),
            FigureOf(sensor.ReadNoiseElectron, Uncertainty(p => Math.Sqrt(Math.Max(0, p[1] + p[2] - quantisation)) / p[0])),
            brightest > ClipMargin * sensor.SaturationElectron ? FigureOf(above, Uncertainty(p => Math.Log2((sensor.SaturationElectron - p[5]) / (p[6] - p[5]))) / greens) : null,
            shadow is { } signal ? FigureOf(Math.Log2(sensor.GreyElectron / signal), Uncertainty(BelowEv) / greens) : null,
            MeterStepEv / Math.Sqrt(12) / Math.Sqrt(2));
    }

    private static double BelowEv(double[] p) => Math.Log2((p[6] - p[5]) / (SensorExpectation.ElectronAtSnr(ShadowSnr, p[0], p[1] + p[2], p[4], p[3]) ?? double.NaN));

    private static double SignalOf(PlanStep step, SensorExpectation sensor) => step.Ev is { } ev && step.Role != "dark" ? sensor.GreyElectron * Math.Pow(2, ev) : 0;

    private static IEnumerable<PlannedVariance> LevelsOf(PlanStep[] steps, SensorExpectation sensor, double pixels)
    {
        double side = pixels > LargePlanePixels ? LargeBlock : SmallBlock;
        double passed = (1 - (1 / side)) * (1 - (1 / side));
        foreach (IGrouping<(string Role, string Shutter, string? LightStep), PlanStep> level in steps.GroupBy(s => (s.Role, s.Shutter, s.LightStep)))
        {
            double signal = SignalOf(level.First(), sensor);
            int frames = level.Sum(s => s.Frames);
            double temporal = sensor.DarkVarianceElectron2 + signal;
            double degrees = (frames - 1) * pixels * passed;
            double uncertainty = (2 * temporal * temporal / degrees) + (signal / (frames * pixels));
            double pattern = (sensor.DsnuElectron * sensor.DsnuElectron) + Math.Pow(sensor.PrnuFraction * signal, 2) + (temporal / frames);
            if (frames > 1)
            {
                yield return new PlannedVariance(signal, frames, temporal, uncertainty, (2 * pattern * pattern / (pixels * passed)) + (uncertainty / (frames * frames)));
            }
        }
    }

    private static Matrix<double> CovarianceOf(PlannedVariance[] levels, BodyExpectation body, SensorExpectation sensor, int meteredFrames, int darkFrames)
    {
        double pixels = body.PixelsPerChannel;
        double dsnuSquare = sensor.DsnuElectron * sensor.DsnuElectron;
        double prnuSquare = sensor.PrnuFraction * sensor.PrnuFraction;
        var transfer = new PlannedLine([.. levels.Select(l => (l.SignalElectron, l.TemporalUncertaintySquare))]);
        var pattern = new PlannedLine([.. levels.Select(l => (l.SignalElectron * l.SignalElectron, l.PatternUncertaintySquare))]);
        Matrix<double> covariance = Matrix<double>.Build.Dense(Parameters, Parameters);
        void Set(int i, int j, double value) => covariance[i, j] = covariance[j, i] = value;
        double Shared(Func<int, double> first, Func<int, double> second) => -levels.Select((l, i) => first(i) * second(i) * l.TemporalUncertaintySquare / l.Frames).Sum();

        Set(0, 0, transfer.SlopeVariance);
        Set(1, 1, transfer.InterceptVariance);
        Set(0, 1, transfer.Covariance);

        // A line's mean tells its own variance by as many lines as there are: rows and columns of a region 3 : 2.
        double rows = Math.Sqrt(pixels / 1.5);
        double columns = 1.5 * rows;
        double pooled = 1 / levels.Sum(l => (l.Frames - 1) * pixels / (2 * l.TemporalElectron2 * l.TemporalElectron2));
        Set(2, 2, pooled * ((1 / rows) + (1 / columns)));
        Set(3, 3, pattern.InterceptVariance + (2 * dsnuSquare * dsnuSquare / pixels));
        Set(4, 4, pattern.SlopeVariance + (2 * prnuSquare * prnuSquare / pixels));
        Set(3, 4, pattern.Covariance);
        Set(0, 3, Shared(transfer.SlopeSensitivity, pattern.InterceptSensitivity));
        Set(0, 4, Shared(transfer.SlopeSensitivity, pattern.SlopeSensitivity));
        Set(1, 3, Shared(transfer.InterceptSensitivity, pattern.InterceptSensitivity));
        Set(1, 4, Shared(transfer.InterceptSensitivity, pattern.SlopeSensitivity));

        // Means of these pixels stand for the body's: their fixed pattern is part of what is not known.
        Set(5, 5, (dsnuSquare + (sensor.DarkVarianceElectron2 / Math.Max(1, darkFrames))) / pixels);
        double grey = sensor.GreyElectron * Math.Pow(2, IsoLayoutBuilder.EdgeEv);
        Set(6, 6, (dsnuSquare + (prnuSquare * grey * grey) + ((sensor.DarkVarianceElectron2 + grey) / meteredFrames)) / body.SpotPixelsPerChannel);
        return covariance;
    }

    private static double UncertaintyOf(Func<double[], double> quantity, double[] expected, Matrix<double> covariance)
    {
        Vector<double> gradient = Vector<double>.Build.Dense(expected.Length, i =>
        {
            double step = 1e-3 * Math.Max(Math.Sqrt(covariance[i, i]), 1e-12);
            double[] up = [.. expected];
            double[] down = [.. expected];
            up[i] += step;
            down[i] -= step;
            return (quantity(up) - quantity(down)) / (2 * step);
        });
        return Math.Sqrt(Math.Max(0, gradient * covariance * gradient));
    }

    private static Figure FigureOf(double value, double uncertainty) =>
        Figure.Estimate(value, uncertainty, value - (Normal95 * uncertainty), value + (Normal95 * uncertainty));
}
