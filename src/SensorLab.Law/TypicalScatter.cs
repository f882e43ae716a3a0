namespace SensorLab.Law;

/// <summary>
/// What the figures of one unchanged body scatter by from set to set beyond noise, as the protocols let expect before any
/// set has told: an assumption, stated as such wherever it is used, and replaced by what repeats show.
/// </summary>
/// <remarks>
/// Rooms within ±5 K of each other, a rectangular distribution with a standard deviation of 2.9 K (JCGM 100:2008, 4.3.7).
/// The coefficients are those of ordinary silicon and amplifiers; a body may have others.
/// </remarks>
internal static class TypicalScatter
{
    /// <summary>Degrees of freedom of a value known to a quarter of itself (JCGM 100:2008, equation G.3).</summary>
    public const double DegreesOfFreedom = 8;

    /// <summary>Standard deviation of the room's temperature in kelvin: ±5 K, rectangular.</summary>
    public const double TemperatureKelvin = 5 / 1.7320508075688772;

    /// <summary>Standard deviation of a black level in DN: a clamp on masked pixels holds it to a fiftieth of a code.</summary>
    public const double BlackDn = 0.02;

    /// <summary>Relative standard deviation of the gain: some 0.03 % a kelvin.</summary>
    public const double Gain = 0.001;

    /// <summary>Relative standard deviation of the read noise: half of it goes with the root of the absolute temperature, 0.17 % a kelvin.</summary>
    public const double ReadNoise = 0.0025;

    /// <summary>Relative standard deviation of a saturation signal: a clipped code stands still, a full well moves by some 0.02 % a kelvin.</summary>
    public const double Saturation = 0.0005;
}
