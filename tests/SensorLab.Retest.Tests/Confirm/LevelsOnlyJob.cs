using MathNet.Numerics.Distributions;
using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Retest.Confirm;

namespace SensorLab.Retest.Tests.Confirm;

/// <summary>Ten frames, five dark and five metered, of a body that may have changed: what their statistics would be, drawn without pixels.</summary>
/// <remarks>
/// Means and variances scatter as those of a million photosites a channel do over five frames: the variance of a mean is that of
/// its noise and its pattern, of a variance 2σ⁴ over its degrees of freedom. What sets differ by is drawn anew: ±5 K and a re-lit field
/// move gain, read noise and black by their own small shares.
/// </remarks>
internal sealed record LevelsOnlyJob(int Seed)
{
    private const double Photosites = 1e6;
    private const int FramesOfEach = 5;

    // A room of ±5 K, evenly: the body's own temperature coefficients of gain and of read noise, and a clamp of a fiftieth of a code.
    private const double GainPerKelvin = 0.0003;
    private const double NoisePerKelvin = 0.00085;
    private const double Kelvin = 5 / 1.7320508;
    private const double ClampDn = 0.02;

    public double BlackMovedDn { get; init; }

    public double ReadNoiseFactor { get; init; } = 1;

    public double GainFactor { get; init; } = 1;

    public double CodeStepDn { get; init; } = 1;

    public string? Firmware { get; init; }

    public string? SerialNumber { get; init; }

    /// <summary>What the job shows.</summary>
    /// <param name="profile">The profile of the body as it was; its true values are taken to be the profile's own, moved by its errors.</param>
    /// <param name="iso">The ISO.</param>
    public JobEvidence Draw(SensorProfile profile, int iso)
    {
        var random = new Random(Seed);
        IsoProfile known = profile.IsoProfiles.First(p => p.Iso == iso);
        double kelvin = Normal.Sample(random, 0, Kelvin);
        double clamp = Normal.Sample(random, 0, ClampDn);
        return new JobEvidence
        {
            Bodies = [profile.Body with { Firmware = Firmware ?? profile.Body.Firmware, SerialNumber = SerialNumber ?? profile.Body.SerialNumber }],
            Mode = profile.RecordingMode,
            Frames = 2 * FramesOfEach,
            Isos = [new IsoEvidence(iso, [.. known.Channels.Select(c => Channel(random, c, kelvin, clamp))])],
        };
    }

    private ChannelEvidence Channel(Random random, ChannelProfile known, double kelvin, double clamp)
    {
        double black = True(random, known.BlackLevelDn!) + clamp + BlackMovedDn;
        double read = True(random, known.ReadNoiseDn!) * (1 + (NoisePerKelvin * kelvin)) * ReadNoiseFactor;
        double gain = True(random, known.GainElectronPerDn!) * (1 + (GainPerKelvin * kelvin)) * GainFactor;
        double dsnu = known.DsnuElectron!.Value!.Value / gain;
        double prnu = known.PrnuPercent!.Value!.Value / 100;
        double signal = known.MiddleGreyDn!.Value!.Value;
        double darkVariance = (read * read) + (1.0 / 12);
        double litVariance = darkVariance + (signal / gain);
        return new ChannelEvidence
        {
            Name = known.Name,
            DeclaredBlackDn = known.DeclaredBlackDn,
            DeclaredWhiteDn = known.DeclaredWhiteDn,
            CodeStepDn = CodeStepDn,
            DarkMeanDn = Mean(random, black, darkVariance, dsnu * dsnu),
            DarkVarianceDn2 = Variance(random, darkVariance),
            LitMeanDn = Mean(random, black + signal, litVariance, (dsnu * dsnu) + (prnu * prnu * signal * signal)),
            LitVarianceDn2 = Variance(random, litVariance),
        };
    }

    // The profile is an estimate of the body: the body lies about it as its budget says.
    private static double True(Random random, Figure figure) => Normal.Sample(random, figure.Value!.Value, figure.StandardUncertainty!.Value);

    private static Estimate Mean(Random random, double value, double temporal, double pattern)
    {
        double uncertainty = Math.Sqrt(((temporal / FramesOfEach) + pattern) / Photosites);
        return new Estimate(Normal.Sample(random, value, uncertainty), uncertainty);
    }

    private static Estimate Variance(Random random, double value)
    {
        double uncertainty = value * Math.Sqrt(2 / ((FramesOfEach - 1) * Photosites));
        return new Estimate(Normal.Sample(random, value, uncertainty), uncertainty);
    }
}
