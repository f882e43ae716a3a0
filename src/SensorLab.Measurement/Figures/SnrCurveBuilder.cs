using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>SNR of a single pixel against EV, from the model.</summary>
/// <remarks>EMVA 1288 R4 Linear, SNR; total SNR includes the fixed pattern. Against exposure: a bent response counts with its slope.</remarks>
internal static class SnrCurveBuilder
{
    private const int PointsAStop = 3;
    private const int LowestEv = -14;
    private const int HighestEv = 8;

    /// <summary>SNR below which the curve tells nothing.</summary>
    private const double LowestSnr = 0.5;

    /// <summary>The curve from SNR 0.5 to the model's saturation, a point every third of a stop.</summary>
    public static IReadOnlyList<SnrPoint> Build(NoiseModel model)
    {
        List<SnrPoint> curve = [];
        for (int step = LowestEv * PointsAStop; step <= HighestEv * PointsAStop; step++)
        {
            double ev = (double)step / PointsAStop;
            double signal = model.GreyLinearDn * Math.Pow(2, ev);
            if (signal > model.SaturationLinearDn)
            {
                break;
            }

            Estimate? total = model.Evaluate(m => SnrAt(m, ev, m.TotalVarianceAt));
            if (total is { Value: >= LowestSnr })
            {
                curve.Add(new SnrPoint
                {
                    Ev = ev,
                    SnrTotal = total.ToFigure(),
                    SnrTemporal = model.Evaluate(m => SnrAt(m, ev, m.TemporalVarianceAt)).ToFigure(),
                });
            }
        }

        return curve;
    }

    private static double SnrAt(NoiseModel model, double ev, Func<double, double> variance)
    {
        double recorded = model.Response.RecordedOf(model.GreyLinearDn * Math.Pow(2, ev));
        return model.Response.ResponsiveSignalOf(recorded) / Math.Sqrt(variance(recorded));
    }
}
