using SensorLab.Law;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>The latitude of one noise model: ratios of exposures, hence of signals of a straight response.</summary>
internal static class LatitudeFigures
{
    /// <summary>EV from middle grey to saturation: a figure, or a lower bound where the bracket ends early.</summary>
    public static Figure? Above(NoiseModel model, Saturation? saturation)
    {
        if (model.Evaluate(m => m.AboveEv()) is { } above)
        {
            return above.ToFigure();
        }

        double bound = saturation is null ? double.NaN : Math.Log2(model.Response.LinearOf(saturation.HighestMeanDn - model[NoiseParameter.BlackDn]) / model.GreyLinearDn);
        return double.IsFinite(bound) ? Figure.LowerBound(bound) : null;
    }

    /// <summary>EV from middle grey to where 0.1 % of pixels clip.</summary>
    public static Figure? FirstClip(NoiseModel model) =>
        model.Evaluate(m => m.FirstClipEv()).ToFigure();

    /// <summary>The shadow end at every criterion.</summary>
    /// <param name="model">The model.</param>
    /// <param name="criteria">SNR criteria.</param>
    /// <param name="deliveryGain">By what SNR rises at the delivery size; null where none is named.</param>
    public static IReadOnlyList<ShadowEnd> Below(NoiseModel model, IReadOnlyList<double> criteria, double? deliveryGain) =>
        [.. criteria.OrderDescending().Select(snr => new ShadowEnd
        {
            Snr = snr,
            PerPixel = BelowAt(model, snr),
            SpanEv = model.Evaluate(m => m.SpanEv(snr)).ToFigure(),
            AtDelivery = deliveryGain is double gain ? BelowAt(model, snr / gain) : null,
        })];

    private static Figure? BelowAt(NoiseModel model, double snr) =>
        model.Evaluate(m => m.BelowEv(snr)).ToFigure();
}
