using SensorLab.Law;

namespace SensorLab.Measurement.Codes;

/// <summary>What lit levels say of the noise without light: a line's height at a black level, and how it moves where black is another.</summary>
/// <param name="VarianceDn2">Temporal variance at the black level, rounding taken out, in DN².</param>
/// <param name="BlackDn">The black level in DN.</param>
/// <param name="GainDnPerElectron">The line's slope: black higher by 1 DN makes the variance higher by as much.</param>
internal readonly record struct LitIntercept(Estimate VarianceDn2, double BlackDn, double GainDnPerElectron)
{
    /// <summary>The same with codes counted in steps.</summary>
    /// <param name="firstCodeDn">The code that counts as 0.</param>
    /// <param name="stepDn">Spacing of codes in DN.</param>
    public LitIntercept InSteps(double firstCodeDn, double stepDn) => new(
        new Estimate(VarianceDn2.Value / (stepDn * stepDn), VarianceDn2.StandardUncertainty / (stepDn * stepDn)),
        (BlackDn - firstCodeDn) / stepDn,
        GainDnPerElectron / stepDn);
}
