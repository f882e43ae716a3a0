using SensorLab.Law;

namespace SensorLab.Planning.Plans;

/// <summary>What is expected of a green photosite at one ISO.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="Noise">Its noise model: values without uncertainty.</param>
/// <param name="CodeStepDn">Spacing of codes in DN, whose rounding the model holds.</param>
/// <param name="IsKnown">Whether it comes from a measurement at this ISO, or from typical figures for all ISOs.</param>
internal sealed record SensorExpectation(int Iso, NoiseModel Noise, double CodeStepDn, bool IsKnown)
{
    /// <summary>Variance of rounding to codes in DN².</summary>
    public double RoundingDn2 => RoundingNoise.VarianceDn2(CodeStepDn);

    /// <summary>Read noise in DN, rounding taken off.</summary>
    public double ReadNoiseDn => Math.Sqrt(Math.Max(0, Noise.TemporalVarianceAt(0) - RoundingDn2));

    /// <summary>The EV from middle grey at which total SNR of one pixel is a criterion; null where the fixed pattern keeps it below.</summary>
    /// <param name="snr">The criterion, above 0.</param>
    public double? EvAtSnr(double snr) => -Noise.BelowEv(snr) is var ev && double.IsFinite(ev) ? ev : null;

    /// <summary>The recorded signal in DN at an exposure, below saturation.</summary>
    /// <param name="ev">EV from middle grey.</param>
    public double SignalDnAt(double ev) => Noise.Response.RecordedOf(Noise.GreyLinearDn * Math.Pow(2, ev));

    /// <summary>What is expected at another ISO: the same codes for as many times less light, read noise and DSNU the same in electrons.</summary>
    /// <param name="iso">The other ISO.</param>
    public SensorExpectation ScaledTo(int iso)
    {
        double more = (double)iso / Iso;
        double readNoiseDn = ReadNoiseDn * more;
        return this with
        {
            Iso = iso,
            Noise = Noise
                .With(NoiseParameter.GainDnPerElectron, new Estimate(Noise[NoiseParameter.GainDnPerElectron] * more, 0))
                .With(NoiseParameter.InterceptDn2, new Estimate((readNoiseDn * readNoiseDn) + RoundingDn2, 0))
                .With(NoiseParameter.PixelDsnuSquareDn2, new Estimate(Noise.DsnuSquareDn2 * more * more, 0)),
            IsKnown = false,
        };
    }
}
