using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.AccuracyStudy;

/// <summary>A figure that the study judges.</summary>
/// <param name="Name">What the table calls it.</param>
/// <param name="Read">Takes it from a channel's profile; null where absent.</param>
/// <param name="Truth">Its true value for a channel.</param>
/// <param name="HasBound">Whether its error is compared with the Cramér–Rao bound.</param>
/// <param name="OfIso">Takes it from the whole ISO instead, green pooled; null for a figure of channels.</param>
/// <param name="OneSided">Whether section 11 asks its interval to hold on one side only, whatever the body.</param>
internal sealed record StudyFigure(
    string Name,
    Func<ChannelProfile, Figure?> Read,
    Func<BodyTruth, SensorChannel, double> Truth,
    bool HasBound = false,
    Func<IsoProfile, Figure?>? OfIso = null,
    bool OneSided = false)
{
    public const string Gain = "gain";
    public const string ReadNoiseDn = "read noise (DN)";
    public const string ReadNoiseElectron = "read noise (e⁻)";

    /// <summary>Whether it counts stops.</summary>
    public bool IsEv => Name.StartsWith("above", StringComparison.Ordinal) || Name.StartsWith("below", StringComparison.Ordinal);

    private static readonly double[] Criteria = [40, 20, 10, 4, 1];

    /// <summary>Where fixed pattern has most of the noise.</summary>
    private static readonly double[] BrightEv = [1, 2];

    public static IReadOnlyList<StudyFigure> All { get; } =
    [
        new(Gain, c => c.GainElectronPerDn, (t, _) => t.GainElectronPerDn, HasBound: true),
        new(ReadNoiseDn, c => c.ReadNoiseDn, (t, _) => t.ReadNoiseElectron / t.GainElectronPerDn, HasBound: true),
        new(ReadNoiseElectron, c => c.ReadNoiseElectron, (t, _) => t.ReadNoiseElectron, HasBound: true),
        new("black level", c => c.BlackLevelDn, (t, _) => t.BlackDn),
        new("saturation (DN)", c => c.SaturationDn, (t, _) => t.SaturationDn, OneSided: true),
        new("saturation (e⁻)", c => c.SaturationElectron, (t, _) => t.SaturatingLightElectron),
        new("first clip", c => c.FirstClipDn, (t, _) => t.FirstClipDn()),
        new("PRNU", c => c.PrnuPercent, (t, _) => 100 * t.PrnuFraction),
        new("DSNU", c => c.DsnuElectron, (t, _) => t.DsnuElectron),
        new("row noise", c => c.RowNoiseElectron, (t, _) => t.RowNoiseElectron),
        new("linearity, mean", c => c.LinearityErrorPercent, (t, channel) => t.LinearityPercent(channel).Mean),
        new("linearity, largest", c => c.LinearityLargestPercent, (t, channel) => t.LinearityPercent(channel).Largest, OneSided: true),
        new("middle grey", c => c.MiddleGreyDn, (t, channel) => t.GreyDn(channel)),
        new("above", c => c.Latitude.AboveEv, (t, channel) => t.AboveEv(channel)),
        .. Criteria.Select(snr => new StudyFigure(
            $"below, SNR {snr}",
            c => c.Latitude.BelowEv.FirstOrDefault(b => b.Snr == snr)?.PerPixel,
            (t, channel) => t.BelowEv(channel, snr))),
        new("above, ISO", _ => null, (t, channel) => t.AboveEv(channel), OfIso: p => p.Latitude.AboveEv),
        .. Criteria.Select(snr => new StudyFigure(
            $"below, SNR {snr}, ISO",
            _ => null,
            (t, channel) => t.BelowEv(channel, snr),
            OfIso: p => p.Latitude.BelowEv.FirstOrDefault(b => b.Snr == snr)?.PerPixel)),
        .. BrightEv.Select(ev => new StudyFigure(
            $"SNR at + {ev} EV, ISO",
            _ => null,
            (t, channel) => t.SnrAtEv(channel, ev),
            OfIso: p => p.SnrCurve.FirstOrDefault(s => Math.Abs(s.Ev - ev) < 1e-9)?.SnrTotal)),
    ];
}
