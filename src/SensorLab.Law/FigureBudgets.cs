using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>Gives the figures of an ISO that people act on the uncertainty that a second set would respect.</summary>
/// <remarks>
/// Measurement model, section 9. Every figure has its own sampling and what temperature does; figures from middle grey on
/// have what moves middle grey besides, one EV for one EV. Parts are independent; the sampling's interval keeps its two sides.
/// </remarks>
public static class FigureBudgets
{
    /// <summary>Adds budgets to an ISO's figures.</summary>
    /// <param name="iso">The ISO's profile; budgets that it has are replaced.</param>
    /// <param name="meterStepEv">The meter's step in EV; null where middle grey was not metered.</param>
    public static IsoProfile Complete(IsoProfile iso, double? meterStepEv)
    {
        GreyBudget grey = GreyBudget.Of(iso, meterStepEv);
        return iso with
        {
            Channels = [.. iso.Channels.Select(c => c with
            {
                BlackLevelDn = Own(c.BlackLevelDn, TypicalScatter.BlackDn),
                GainElectronPerDn = Relative(c.GainElectronPerDn, TypicalScatter.Gain),
                ReadNoiseElectron = Relative(c.ReadNoiseElectron, TypicalScatter.ReadNoise),
                ReadNoiseDn = Relative(c.ReadNoiseDn, TypicalScatter.ReadNoise),
                SaturationDn = Relative(c.SaturationDn, TypicalScatter.Saturation),
                SaturationElectron = Relative(c.SaturationElectron, double.Hypot(TypicalScatter.Saturation, TypicalScatter.Gain)),
                FirstClipDn = Relative(c.FirstClipDn, TypicalScatter.Saturation),
                MiddleGreyDn = FromGrey(c.MiddleGreyDn, grey, 0, Math.Log(2) * (c.MiddleGreyDn?.Value ?? 0)),
                Latitude = c.Latitude with
                {
                    AboveEv = Above(c.Latitude.AboveEv, grey),
                    FirstClipEv = Above(c.Latitude.FirstClipEv, grey),
                    BelowEv = [.. c.Latitude.BelowEv.Select(e => OfEnd(e, grey))],
                },
            })],
            Latitude = iso.Latitude with
            {
                AboveEv = Above(iso.Latitude.AboveEv, grey),
                FirstClipEv = Above(iso.Latitude.FirstClipEv, grey),
                BandsEndEv = FromGrey(iso.Latitude.BandsEndEv, grey, GreyBudget.EvOf(TypicalScatter.ReadNoise), 1),
                BelowEv = [.. iso.Latitude.BelowEv.Select(e => OfEnd(e, grey))],
            },
            Previews = [.. iso.Previews.Select(p => p with { ClipEv = FromGrey(p.ClipEv, grey, 0, 1), ShadowEndEv = FromGrey(p.ShadowEndEv, grey, 0, 1) })],
        };
    }

    private static ShadowEnd OfEnd(ShadowEnd end, GreyBudget grey) => end with
    {
        PerPixel = FromGrey(end.PerPixel, grey, GreyBudget.EvOf(TypicalScatter.ReadNoise), 1),
        SpanEv = Own(end.SpanEv, GreyBudget.EvOf(TypicalScatter.ReadNoise)),
        AtDelivery = FromGrey(end.AtDelivery, grey, GreyBudget.EvOf(TypicalScatter.ReadNoise), 1),
    };

    private static Figure? Above(Figure? figure, GreyBudget grey) => FromGrey(figure, grey, GreyBudget.EvOf(TypicalScatter.Saturation), 1);

    private static Figure? Relative(Figure? figure, double share) => Own(figure, share * Math.Abs(figure?.Value ?? 0));

    private static Figure? Own(Figure? figure, double temperature) => With(figure, temperature, [], 0);

    private static Figure? FromGrey(Figure? figure, GreyBudget grey, double temperature, double unitsPerEv) => With(
        figure, temperature, [.. grey.Parts.Select(p => p with { Uncertainty = unitsPerEv * p.Uncertainty })], unitsPerEv * grey.RectangleEv);

    private static Figure? With(Figure? figure, double temperature, IReadOnlyList<GreyBudget.Part> grey, double rectangle)
    {
        if (figure is not { Value: { } value, StandardUncertainty: { } own, Lower95: { } lower, Upper95: { } upper })
        {
            return figure;
        }

        GreyBudget.Part[] parts =
        [
            new(BudgetSource.Sampling, own, figure.DegreesOfFreedom ?? double.PositiveInfinity, BudgetOrigin.Set),
            .. grey,
            new(BudgetSource.Temperature, temperature, TypicalScatter.DegreesOfFreedom, BudgetOrigin.Protocol),
        ];
        double variance = parts.Sum(p => p.Uncertainty * p.Uncertainty);
        double fourths = parts.Sum(p => Math.Pow(p.Uncertainty, 4) / p.DegreesOfFreedom);
        double freedom = fourths > 0 ? variance * variance / fourths : double.PositiveInfinity;

        // The rectangle is drawn by its own distribution, the sampling by its own two sides.
        double others = parts.Skip(1).Where(p => p.Uncertainty > 0 && !(rectangle > 0 && p.Source == BudgetSource.Meter)).Sum(p => Math.Pow(StudentTail.Factor95(p.DegreesOfFreedom) * p.Uncertainty, 2));
        double Side(double sampling) => BudgetInterval.Half(Math.Sqrt((sampling * sampling) + others), rectangle);
        return figure with
        {
            Budget = new FigureBudget
            {
                StandardUncertainty = Math.Sqrt(variance),
                Lower95 = value - Side(value - lower),
                Upper95 = value + Side(upper - value),
                DegreesOfFreedom = Propagation.Published(freedom),
                Parts = [.. parts.Where(p => p.Uncertainty > 0).Select(p => new BudgetPart(p.Source, p.Uncertainty, p.From))],
            },
        };
    }
}
