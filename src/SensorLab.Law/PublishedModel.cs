using SensorLab.Profiles;

namespace SensorLab.Law;

/// <summary>The noise model that a channel's published figures tell: what everything after the profile reckons with.</summary>
/// <remarks>
/// Published figures carry no covariances: the model has values alone, and what is evaluated from it no uncertainty.
/// Rows and columns are part of the read noise, DSNU and PRNU, and stand with the pixels'; a bound tells no value.
/// </remarks>
public static class PublishedModel
{
    /// <summary>Percent in a whole.</summary>
    private const double Percent = 100;

    /// <summary>A model of a straight response whose rows and columns add nothing to what pixels have, and no other parameter.</summary>
    public static NoiseModel WithoutLines { get; } = new[]
    {
        NoiseParameter.RowDn2,
        NoiseParameter.ColumnDn2,
        NoiseParameter.RowDsnuSquareDn2,
        NoiseParameter.ColumnDsnuSquareDn2,
        NoiseParameter.RowPrnuSquare,
        NoiseParameter.ColumnPrnuSquare,
    }.Aggregate(NoiseModel.Empty, (model, parameter) => model.With(parameter, Known(0)));

    /// <summary>The model of a channel.</summary>
    /// <param name="iso">The ISO, whose dark frames tell how codes are rounded: that is no part of the published read noise.</param>
    /// <param name="channel">The channel's figures.</param>
    /// <returns>The model; null where gain or read noise is absent or a bound.</returns>
    public static NoiseModel? Of(IsoProfile iso, ChannelProfile channel)
    {
        if (channel.GainElectronPerDn?.Value is not (> 0 and { } gain) || channel.ReadNoiseDn?.Value is not { } readNoiseDn)
        {
            return null;
        }

        double? black = channel.BlackLevelDn?.Value;
        return WithoutLines
            .With(NoiseParameter.BlackDn, Known(black))
            .With(NoiseParameter.GainDnPerElectron, Known(1 / gain))
            .With(NoiseParameter.InterceptDn2, Known((readNoiseDn * readNoiseDn) + RoundingNoise.VarianceDn2(CodeStepDn(iso, channel.Name))))
            .With(NoiseParameter.PixelDsnuSquareDn2, Known(Square(channel.DsnuElectron?.Value / gain)))
            .With(NoiseParameter.PixelPrnuSquare, Known(Square(channel.PrnuPercent?.Value / Percent)))
            .With(NoiseParameter.GreyMeanDn, Known(black + channel.MiddleGreyDn?.Value))
            .With(NoiseParameter.SaturationMeanDn, Known(black + channel.SaturationDn?.Value))
            .With(NoiseParameter.BendPerDn, Known(BendPerDn(channel)));
    }

    /// <summary>The model of the greens pooled (Y in monochrome): the mean of their parameters.</summary>
    /// <param name="iso">The ISO.</param>
    /// <returns>The model; null where a green has none, or there is no green.</returns>
    public static NoiseModel? Pooled(IsoProfile iso)
    {
        NoiseModel?[] greens = [.. iso.Channels.Where(c => ChannelName.IsPooled(c.Name)).Select(c => Of(iso, c))];
        return greens.Length == 0 || greens.Contains(null)
            ? null
            : Enum.GetValues<NoiseParameter>().Aggregate(NoiseModel.Empty, (pooled, parameter) => pooled.With(parameter, Known(greens.Average(g => g![parameter]))));
    }

    /// <summary>How recorded signal follows exposure, as published.</summary>
    /// <param name="channel">The channel's figures.</param>
    /// <returns>The response; a straight one where no compression is published.</returns>
    public static ResponseCurve Response(ChannelProfile channel) => new(BendPerDn(channel));

    /// <summary>Spacing of codes in the dark, which the model's rounding noise is of; of any level where there is no dark one.</summary>
    /// <param name="iso">The ISO.</param>
    /// <param name="channel">The channel's name.</param>
    /// <returns>In DN, 1 or more. A maker's curve has wider steps in bright levels, where photon noise drowns them.</returns>
    public static double CodeStepDn(IsoProfile iso, string channel) =>
        iso.Levels.OrderBy(l => l.Role != RoleName.Dark).SelectMany(l => l.Channels).Where(c => c.Name == channel).Select(c => c.CodeStepDn).FirstOrDefault(1);

    // What is missing at saturation as a share of the signal there is b·S.
    private static double BendPerDn(ChannelProfile channel) =>
        channel.CompressionPercent?.Value / Percent / channel.SaturationDn?.Value ?? 0;

    private static Estimate? Known(double? value) => value is { } known ? new Estimate(known, 0) : null;

    private static double? Square(double? number) => number * number;
}
