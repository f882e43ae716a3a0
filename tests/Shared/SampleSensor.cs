using SensorLab.Profiles;
using static SensorLab.TestData.SampleProfiles;

namespace SensorLab.TestData;

/// <summary>The physics behind <see cref="SampleProfiles"/>: one gain, shot noise, read noise and PRNU.</summary>
internal sealed class SampleSensor(double gainElectronPerDn)
{
    public const double AboveEv = 3.2;
    private const double BlackDn = 512.25;
    private const double SaturationDn = 15871;
    private const double Prnu = 0.006;

    /// <summary>The SNR criteria of the measurement model.</summary>
    public static IReadOnlyList<double> Criteria { get; } = [40, 20, 10, 4, 1];

    private double ReadNoiseElectron { get; } = 2.2 + (0.5 * gainElectronPerDn);

    public ChannelProfile Channel(string name) => new()
    {
        Name = name,
        BlackLevelDn = Measured(BlackDn, 0.004),
        GainElectronPerDn = Measured(gainElectronPerDn, 0.001 * gainElectronPerDn, 410),
        ReadNoiseElectron = Measured(ReadNoiseElectron, 0.02, 130),
        ReadNoiseDn = Measured(ReadNoiseElectron / gainElectronPerDn, 0.006, 130),
        SaturationDn = Measured(SaturationDn, 0.5),
        SaturationElectron = Measured(SaturationDn * gainElectronPerDn, 0.001 * SaturationDn * gainElectronPerDn),
        FirstClipDn = Measured(SaturationDn * 0.95, 20),
        PrnuPercent = Measured(100 * Prnu, 0.01),
        DsnuElectron = Measured(0.9, 0.02),
        RowNoiseElectron = Measured(0.2, 0.02),
        ColumnNoiseElectron = Measured(0.1, 0.02),
        DsnuRowElectron = Measured(0.1, 0.02),
        DsnuColumnElectron = Measured(0.3, 0.02),
        PrnuRowPercent = Figure.UpperBound(0.02),
        PrnuColumnPercent = Measured(0.05, 0.01),
        LinearityErrorPercent = Measured(0.2, 0.03),
        LinearityLargestPercent = Measured(0.5, 0.05),
        MiddleGreyDn = Measured(SaturationDn * Math.Pow(2, -AboveEv), 1.5),
        Latitude = new ChannelLatitude { AboveEv = Measured(AboveEv, 0.004), FirstClipEv = Measured(AboveEv - 0.08, 0.004), BelowEv = [.. Criteria.Select(ShadowEnd)] },
        DngNoiseProfile = new DngNoiseProfile(1 / (gainElectronPerDn * SaturationDn), Math.Pow(ReadNoiseElectron / gainElectronPerDn / SaturationDn, 2)),
    };

    public ShadowEnd ShadowEnd(double snr)
    {
        // S/√(r² + S + (p·S)²) = snr, solved for S.
        double a = 1 - Math.Pow(snr * Prnu, 2);
        double signal = ((snr * snr) + Math.Sqrt(Math.Pow(snr, 4) + (4 * a * Math.Pow(snr * ReadNoiseElectron, 2)))) / (2 * a);
        double below = Math.Log2(SignalElectron(0) / signal);
        return new ShadowEnd { Snr = snr, PerPixel = Measured(below, 0.008), SpanEv = Measured(below + AboveEv, 0.007), AtDelivery = Measured(below + 0.4, 0.008) };
    }

    public SnrPoint SnrPoint(double ev)
    {
        double signal = SignalElectron(ev);
        double temporal = signal / Math.Sqrt(Math.Pow(ReadNoiseElectron, 2) + signal);
        double total = signal / Math.Sqrt(Math.Pow(ReadNoiseElectron, 2) + signal + Math.Pow(Prnu * signal, 2));
        return new SnrPoint { Ev = ev, SnrTotal = Measured(total, 0.004 * total), SnrTemporal = Measured(temporal, 0.004 * temporal) };
    }

    public LevelRecord Level(string role, double? ev, IEnumerable<string> channels) => new()
    {
        Role = role,
        ExposureSeconds = 0.01 * Math.Pow(2, ev ?? 0),
        ApertureFNumber = 5.6,
        Ev = ev,
        Frames = 2,
        PixelsPerChannel = 240_000,
        RowsPerChannel = 400,
        Channels = [.. channels.Select(name => LevelChannel(name, ev))],
    };

    public static PreviewProfile Preview(string look, double contrast) => new()
    {
        Look = look,
        ClipEv = Measured(2.4 / contrast, 0.03),
        ShadowEndEv = Measured(-5 / contrast, 0.1),
        HiddenHeadroomEv = Measured(AboveEv - (2.4 / contrast), 0.03),
        HighlightWarningPercent = Measured(94, 1),
        ToneCurve = [.. Enumerable.Range(-6, 10).Select(ev => new ToneCurvePoint(ev, Math.Round(Math.Min(255, 118 * Math.Pow(2, ev * contrast / 2.2)), 1)))],
    };

    private double SignalElectron(double ev) => gainElectronPerDn * SaturationDn * Math.Pow(2, ev - AboveEv);

    private LevelChannel LevelChannel(string name, double? ev)
    {
        double signal = ev is { } at ? Math.Min(SaturationDn, SignalElectron(at) / gainElectronPerDn) : 0;
        double temporal = Math.Pow(ReadNoiseElectron / gainElectronPerDn, 2) + (signal / gainElectronPerDn);
        return new LevelChannel
        {
            Name = name,
            MeanDn = BlackDn + signal,
            MeanUncertaintyDn = 0.02,
            FrameMeansDn = [BlackDn + signal - 0.01, BlackDn + signal + 0.01],
            SpotMeanDn = ev is 0 ? BlackDn + signal : null,
            SpotMeanUncertaintyDn = ev is 0 ? 0.1 : null,
            TemporalVarianceDn2 = temporal,
            TemporalParts = Parts(temporal),
            FixedPatternVarianceDn2 = Math.Pow(Prnu * signal, 2),
            FixedPatternParts = Parts(Math.Pow(Prnu * signal, 2)),
            LowestCodeDn = 480,
            HighestCodeDn = (int)(BlackDn + signal) + 60,
            UsedInFit = ev is not 3,
            Histogram = ev is null ? new CodeHistogram(510, [12, 340, 4021, 351, 9]) : null,
        };
    }

    private static VarianceParts Parts(double variance) => new()
    {
        PixelDn2 = 0.98 * variance,
        PixelUncertaintyDn2 = 0.004 * variance,
        RowDn2 = 0.02 * variance,
        RowUncertaintyDn2 = 0.004 * variance,
        ColumnDn2 = -1e-5 * variance,
        ColumnUncertaintyDn2 = 0.001 * variance,
    };
}
