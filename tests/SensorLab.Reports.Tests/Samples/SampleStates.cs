using SensorLab.Profiles;

namespace SensorLab.Reports.Tests.Samples;

/// <summary>Profiles of every state that a chart must bear.</summary>
internal static class SampleStates
{
    public const string HostileModel = "<LM-2> & \"]]>\" </svg><script>alert(1)</script>\r\n\u0007\u001b[31m\uFFFF ${x} 'tail";

    public static SensorProfile Of(string state) => state switch
    {
        "three ISOs" => SampleProfile.ThreeIsos(),
        "twenty ISOs" => SampleProfile.TwentyIsos(),
        "one ISO" => SampleProfile.Of(new VirtualBody()),
        "monochrome" => SampleProfile.Of(new VirtualBody { Sensitivity = VirtualBody.Monochrome }),
        "bounds" => Map(SampleProfile.ThreeIsos(), Bounds),
        "absent" => Map(SampleProfile.ThreeIsos(), Absent),
        "wide intervals" => Map(SampleProfile.ThreeIsos(), Wide),
        "no ISO" => SampleProfile.ThreeIsos() with { IsoProfiles = [] },
        "long name" => Named(new string('W', 300) + " " + new string('m', 300)),
        "hostile name" => Map(Named(HostileModel), Hostile),
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "No such state."),
    };

    public static TheoryData<string> All { get; } =
        ["three ISOs", "twenty ISOs", "one ISO", "monochrome", "bounds", "absent", "wide intervals", "no ISO", "long name", "hostile name"];

    private static SensorProfile Named(string model) =>
        SampleProfile.Of(new VirtualBody()) with { Body = new BodyIdentity("Larkmoor", model, "20417", "1.1") };

    private static SensorProfile Map(SensorProfile profile, Func<IsoProfile, IsoProfile> change) =>
        profile with { IsoProfiles = [.. profile.IsoProfiles.Select(change)] };

    private static IsoProfile Hostile(IsoProfile iso) => iso with
    {
        Channels = [.. iso.Channels.Select(channel => channel with { Name = channel.Name + "\u0007<" })],
        Latitude = iso.Latitude with { LimitingChannel = "G\u001b&" },
        Previews = [.. iso.Previews.Select(preview => preview with { Look = HostileModel })],
    };

    // A bracket that ends early on both sides.
    private static IsoProfile Bounds(IsoProfile iso) => iso with
    {
        Latitude = iso.Latitude with
        {
            AboveEv = Figure.LowerBound(1.9),
            FirstClipEv = null,
            BelowEv = [.. iso.Latitude.BelowEv.Select(end => end with { PerPixel = end.Snr > 10 ? end.PerPixel : Figure.LowerBound(1.5 + (4 / end.Snr)) })],
        },
        SnrCurve = [.. iso.SnrCurve.Where(point => point.Ev is > -2 and < 1.9)],
        Levels = [.. iso.Levels.Where(level => level.Ev is null or (> -2 and < 1.9))],
        Previews = [],
    };

    private static IsoProfile Absent(IsoProfile iso) => iso with
    {
        MeterStandardUncertaintyEv = null,
        Channels = [.. iso.Channels.Select(channel => new ChannelProfile { Name = channel.Name, Latitude = new ChannelLatitude() })],
        Latitude = new IsoLatitude(),
        SnrCurve = [],
        Levels = [],
        Previews = [],
    };

    private static IsoProfile Wide(IsoProfile iso) => iso with
    {
        Latitude = iso.Latitude with
        {
            AboveEv = Figure.Estimate(3.1, 0.15, 2.7, 3.34),
            BelowEv = [.. iso.Latitude.BelowEv.Select(end => end with { PerPixel = end.PerPixel is { Value: { } v } ? SampleProfile.Known(v, 0.15) : null })],
        },
    };
}
