using SensorLab.Law;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>The latitude of an ISO: the first channel's bright end, the pooled greens' shadow end.</summary>
internal static class IsoLatitudeBuilder
{
    /// <summary>The criterion where none is named.</summary>
    public const double DefaultSnr = 10;

    public static IsoLatitude Build(IReadOnlyList<ChannelProfile> channels, NoiseModel pooled, ResponseResidual? residual, IsoOptions options)
    {
        var greens = new LatitudeFigures(pooled, residual);
        ChannelProfile? first = FirstToSaturate(channels);
        bool greensAgree = first is not null && GreensAgree(channels, first);
        return new IsoLatitude
        {
            AboveEv = greensAgree ? greens.Above(null) : first?.Latitude.AboveEv ?? LowestBound(channels),
            FirstClipEv = greensAgree ? greens.FirstClip() : first?.Latitude.FirstClipEv,
            LimitingChannel = first?.Name,
            LimitingChannelBelow = channels.Where(c => ShadowEndOf(c) is not null).MinBy(c => ShadowEndOf(c)!.Value)?.Name,
            BelowEv = greens.Below(options.SnrCriteria, DeliveryGain(pooled, channels, options)),
        };
    }

    /// <summary>The channel with the lowest measured end, unless a channel that never saturated could be lower.</summary>
    private static ChannelProfile? FirstToSaturate(IReadOnlyList<ChannelProfile> channels)
    {
        ChannelProfile? first = channels.Where(c => c.Latitude.AboveEv?.Value is not null).MinBy(c => c.Latitude.AboveEv!.Value!.Value);
        bool certain = first is not null && channels.All(c => c.Latitude.AboveEv is not { AtLeast: double bound } || bound >= first.Latitude.AboveEv!.Value);
        return certain ? first : null;
    }

    /// <summary>
    /// Whether a green saturates first and the other one within chance of it: the lower of two equal channels would be
    /// too low by half an uncertainty, their mean is not.
    /// </summary>
    private static bool GreensAgree(IReadOnlyList<ChannelProfile> channels, ChannelProfile first)
    {
        Figure?[] greens = [.. channels.Where(c => ChannelName.IsGreen(c.Name)).Select(c => c.Latitude.AboveEv)];
        return ChannelName.IsGreen(first.Name)
            && greens is [{ Value: double a, StandardUncertainty: double ua }, { Value: double b, StandardUncertainty: double ub }]
            && Math.Abs(a - b) <= Significance.SameChannel * double.Hypot(ua, ub);
    }

    private static Figure? LowestBound(IReadOnlyList<ChannelProfile> channels)
    {
        double[] bounds = [.. channels.Select(c => c.Latitude.AboveEv?.AtLeast ?? c.Latitude.AboveEv?.Value).OfType<double>()];
        return bounds.Length == 0 ? null : Figure.LowerBound(bounds.Min());
    }

    private static double? ShadowEndOf(ChannelProfile channel) =>
        channel.Latitude.BelowEv.FirstOrDefault(b => b.Snr == DefaultSnr)?.PerPixel?.Value;

    /// <summary>√(photosites of the colour over delivered pixels): G1 and G2 together, white noise assumed.</summary>
    private static double? DeliveryGain(NoiseModel pooled, IReadOnlyList<ChannelProfile> channels, IsoOptions options)
    {
        if (options.Delivery is not { } delivery || double.IsNaN(pooled.GreySignalDn))
        {
            return null;
        }

        double share = channels.Count > 1 ? 0.5 : 1;
        return Math.Sqrt(share * options.SensorPixels / ((double)delivery.WidthPixels * delivery.HeightPixels));
    }
}
