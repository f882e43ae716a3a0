namespace SensorLab.Reports.Tests.Samples;

/// <summary>The physics of a body at one ISO, from which sample profiles are computed.</summary>
internal sealed record VirtualBody
{
    public int Iso { get; init; } = 400;

    public double GainElectronPerDn { get; init; } = 1.25;

    public double ReadNoiseElectron { get; init; } = 2.6;

    public double BlackDn { get; init; } = 512.25;

    public double SaturationDn { get; init; } = 15_600;

    public double PrnuShare { get; init; } = 0.006;

    public double DsnuElectron { get; init; } = 0.7;

    public double MiddleGreyDn { get; init; } = 1_560;

    /// <summary>What the signal lacks at saturation, in percent of it; 0 for a straight response.</summary>
    public double CompressionPercent { get; init; }

    public IReadOnlyDictionary<string, double> Sensitivity { get; init; } = Bayer;

    public static IReadOnlyDictionary<string, double> Bayer { get; } =
        new Dictionary<string, double> { ["R"] = 0.52, ["G1"] = 1, ["G2"] = 0.998, ["B"] = 0.71 };

    public static IReadOnlyDictionary<string, double> Monochrome { get; } = new Dictionary<string, double> { ["Y"] = 1 };

    /// <summary>A body whose gain follows the ISO: from ISO 100 up, a stop of ISO is a stop less light for middle grey.</summary>
    public static VirtualBody AtIso(int iso)
    {
        double step = iso / 400.0;
        return new VirtualBody
        {
            Iso = iso,
            GainElectronPerDn = 1.25 / step,
            ReadNoiseElectron = 1.3 + (2.6 / Math.Sqrt(step)),
        };
    }

    /// <summary>What is recorded of a signal that a straight response would give: it falls off with the signal, to saturation.</summary>
    public double Recorded(double exposedDn) => exposedDn / (1 + (CompressionPercent / 100 * exposedDn / SaturationDn));

    // Photon noise of the light, times the response's slope there.
    public double TemporalVarianceDn2(double exposedDn)
    {
        double step = 1e-3 * Math.Max(1, exposedDn);
        double slope = (Recorded(exposedDn + step) - Recorded(exposedDn - step)) / (2 * step);
        return Math.Pow(ReadNoiseElectron / GainElectronPerDn, 2) + (1 / 12.0) + (slope * slope * exposedDn / GainElectronPerDn);
    }

    public double FixedVarianceDn2(double signalDn) =>
        Math.Pow(DsnuElectron / GainElectronPerDn, 2) + Math.Pow(PrnuShare * signalDn, 2);

    public double Snr(double signalDn, bool total) =>
        signalDn / Math.Sqrt(TemporalVarianceDn2(signalDn) + (total ? FixedVarianceDn2(signalDn) : 0));

    /// <summary>Stops below middle grey at which total SNR is the criterion, by bisection: SNR rises with the signal.</summary>
    public double BelowEv(double snr)
    {
        (double low, double high) = (-20, 20);
        for (int i = 0; i < 80; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Snr(MiddleGreyDn * Math.Pow(2, middle), total: true) < snr ? (middle, high) : (low, middle);
        }

        return -high;
    }
}
