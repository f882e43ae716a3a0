using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Retest.Tests;

/// <summary>The sample profile with something in it changed.</summary>
internal static class Edited
{
    public static SensorProfile Sample { get; } = SampleProfiles.ThreeIsos();

    /// <summary>One with another firmware, every channel of an ISO changed.</summary>
    public static SensorProfile Channels(int iso, Func<ChannelProfile, ChannelProfile> change) =>
        Iso(iso, p => p with { Channels = [.. p.Channels.Select(change)] });

    public static SensorProfile Iso(int iso, Func<IsoProfile, IsoProfile> change) => Updated() with
    {
        IsoProfiles = [.. Sample.IsoProfiles.Select(p => p.Iso == iso ? change(p) : p)],
    };

    public static SensorProfile Updated(string firmware = "1.2") => Sample with { Body = Sample.Body with { Firmware = firmware } };

    /// <summary>A figure moved by an amount in its own unit, or scaled, its uncertainty scaled with it or set.</summary>
    public static Figure Moved(Figure figure, double amount = 0, double factor = 1, double? uncertainty = null) =>
        SampleProfiles.Measured((figure.Value!.Value * factor) + amount, uncertainty ?? (figure.StandardUncertainty!.Value * factor));

    /// <summary>Middle grey moved up by EV at every ISO: less room above, more below, another signal.</summary>
    public static SensorProfile GreyMoved(double ev, string firmware) => Sample with
    {
        Body = Sample.Body with { Firmware = firmware },
        IsoProfiles = [.. Sample.IsoProfiles.Select(p => p with
        {
            Channels = [.. p.Channels.Select(c => c with
            {
                MiddleGreyDn = Moved(c.MiddleGreyDn!, factor: Math.Pow(2, ev)),
                Latitude = new ChannelLatitude { AboveEv = Moved(c.Latitude.AboveEv!, -ev), FirstClipEv = Moved(c.Latitude.FirstClipEv!, -ev), BelowEv = [.. c.Latitude.BelowEv.Select(e => e with { PerPixel = Moved(e.PerPixel!, ev) })] },
            })],
            Latitude = p.Latitude with
            {
                AboveEv = Moved(p.Latitude.AboveEv!, -ev),
                FirstClipEv = Moved(p.Latitude.FirstClipEv!, -ev),
                BelowEv = [.. p.Latitude.BelowEv.Select(e => e with { PerPixel = Moved(e.PerPixel!, ev), AtDelivery = null })],
            },
        })],
    };
}
