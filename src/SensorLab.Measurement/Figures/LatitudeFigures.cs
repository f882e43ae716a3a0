using SensorLab.Law;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>The latitude of one noise model: ratios of exposures, hence of signals of a straight response, and of what the response does beside it.</summary>
/// <param name="model">The model.</param>
/// <param name="residual">What the response does beside the fitted law; null where that is not known.</param>
internal sealed class LatitudeFigures(NoiseModel model, ResponseResidual? residual)
{
    /// <summary>EV from middle grey to saturation: a figure, or a lower bound where the bracket ends early.</summary>
    /// <param name="saturation">Where the channel saturates; null where that is in the model or not known.</param>
    public Figure? Above(Saturation? saturation)
    {
        if (Between(m => m.GreySignalDn, m => m.SaturationSignalDn, m => m.AboveEv()) is { } above)
        {
            return above;
        }

        double bound = saturation is null ? double.NaN : Math.Log2(model.Response.LinearOf(saturation.HighestMeanDn - model[NoiseParameter.BlackDn]) / model.GreyLinearDn);
        return double.IsFinite(bound) ? Figure.LowerBound(bound) : null;
    }

    /// <summary>EV from middle grey to where 0.1 % of pixels clip.</summary>
    public Figure? FirstClip() =>
        Between(m => m.GreySignalDn, m => m.FirstClipSignalDn, m => m.FirstClipEv());

    /// <summary>The shadow end at every criterion.</summary>
    /// <param name="criteria">SNR criteria.</param>
    /// <param name="deliveryGain">By what SNR rises at the delivery size; null where none is named.</param>
    public IReadOnlyList<ShadowEnd> Below(IReadOnlyList<double> criteria, double? deliveryGain) =>
        [.. criteria.OrderDescending().Select(snr => new ShadowEnd
        {
            Snr = snr,
            PerPixel = BelowAt(snr),
            SpanEv = Between(m => m.Response.RecordedOf(m.SignalAtSnr(snr)), m => m.SaturationSignalDn, m => m.SpanEv(snr)),
            AtDelivery = deliveryGain is double gain ? BelowAt(snr / gain) : null,
        })];

    private Figure? BelowAt(double snr) =>
        Between(m => m.Response.RecordedOf(m.SignalAtSnr(snr)), m => m.GreySignalDn, m => m.BelowEv(snr));

    /// <summary>Stops between two signals as the fitted law has them, with what the response does beside it.</summary>
    private Figure? Between(Func<NoiseModel, double> fromDn, Func<NoiseModel, double> toDn, Func<NoiseModel, double> stops)
    {
        if (model.Evaluate(stops) is not { } fitted)
        {
            return null;
        }

        (double from, double to) = (fromDn(model), toDn(model));
        if (residual is null || !double.IsFinite(from) || !double.IsFinite(to))
        {
            return fitted.ToFigure();
        }

        Estimate beside = residual.Between(Math.Min(from, to), Math.Max(from, to));
        double own = beside.StandardUncertainty / Math.Log(2);
        double total = double.Hypot(fitted.StandardUncertainty, own);
        double degrees = own > 0 && fitted.StandardUncertainty > 0 ? fitted.DegreesOfFreedom * Math.Pow(total / fitted.StandardUncertainty, 4) : fitted.DegreesOfFreedom;
        return new Estimate(fitted.Value + ((to > from ? 1 : -1) * beside.Value / Math.Log(2)), total, degrees).ToFigure();
    }
}
