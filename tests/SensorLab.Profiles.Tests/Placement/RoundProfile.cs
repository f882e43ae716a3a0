using SensorLab.TestData;

namespace SensorLab.Profiles.Tests.Placement;

/// <summary>
/// A profile to reckon by hand: above 3.2 and below 4.0 EV at SNR 10, each ± 0.03, a meter of ± 0.04 (so 0.05 together),
/// and SNR = 2^(5 + EV/2), with a relative uncertainty of 0.004.
/// </summary>
internal static class RoundProfile
{
    public const double SensorUncertaintyEv = 0.03;
    public const double MeterUncertaintyEv = 0.04;
    public const double TogetherEv = 0.05;
    public const double SnrRelativeUncertainty = 0.004;

    public static SensorProfile Of(params IsoProfile[] isoProfiles) => SampleProfiles.ThreeIsos() with
    {
        IsoProfiles = isoProfiles.Length > 0 ? isoProfiles : [Iso()],
        MiddleGrey = new MiddleGrey { Method = "metered", MeterStepEv = 1.0 / 3, MeterStandardUncertaintyEv = 0.2, Readings = 1 },
    };

    public static IsoProfile Iso(int iso = 400) => new()
    {
        Iso = iso,
        MeterReadings = 3,
        MeterStandardUncertaintyEv = MeterUncertaintyEv,
        Channels = [Channel("R", Ev(3.5)), Channel("G1", Ev(3.2)), Channel("G2", Ev(3.25)), Channel("B", Ev(3.0))],
        Latitude = new IsoLatitude
        {
            AboveEv = Ev(3.2),
            LimitingChannel = "G1",
            BelowEv = [Below(20, 2), Below(10, 4), Below(4, 6.5)],
        },
        SnrCurve = [.. Enumerable.Range(-16, 23).Select(half => Point(half * 0.5, Math.Pow(2, 5 + (half * 0.25))))],
    };

    public static Figure Ev(double value, double? degreesOfFreedom = null) => SampleProfiles.Measured(value, SensorUncertaintyEv, degreesOfFreedom);

    public static SnrPoint Point(double ev, double snr) => new() { Ev = ev, SnrTotal = SampleProfiles.Measured(snr, SnrRelativeUncertainty * snr) };

    public static ChannelProfile Channel(string name, Figure? aboveEv) => new() { Name = name, Latitude = new ChannelLatitude { AboveEv = aboveEv } };

    public static IsoProfile WithAbove(Figure? aboveEv)
    {
        IsoProfile iso = Iso();
        return iso with { Latitude = iso.Latitude with { AboveEv = aboveEv } };
    }

    public static IsoProfile WithBelow(Figure? perPixel)
    {
        IsoProfile iso = Iso();
        return iso with { Latitude = iso.Latitude with { BelowEv = [new ShadowEnd { Snr = 10, PerPixel = perPixel }] } };
    }

    private static ShadowEnd Below(double snr, double ev) => new() { Snr = snr, PerPixel = Ev(ev) };
}
