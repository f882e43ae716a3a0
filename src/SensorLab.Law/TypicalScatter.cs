namespace SensorLab.Law;

/// <summary>
/// What makes sets of one unchanged body differ beyond noise, as the protocols let expect before any set has told: an
/// assumption, stated as such wherever it is used, and replaced by what the set or repeats show.
/// </summary>
/// <remarks>
/// Limits are those of rectangular distributions, with a standard deviation of 1/√3 of them (JCGM 100:2008, 4.3.7). Rooms are
/// taken to lie within ±5 K of each other. The coefficients are those of ordinary silicon, amplifiers, shutters and
/// diaphragms; a body may have others.
/// </remarks>
internal static class TypicalScatter
{
    /// <summary>Degrees of freedom of a value known to a quarter of itself (JCGM 100:2008, equation G.3).</summary>
    public const double DegreesOfFreedom = 8;

    /// <summary>Standard deviation of a black level in DN: a clamp on masked pixels holds it to a fiftieth of a code.</summary>
    public const double BlackDn = 0.02;

    /// <summary>Relative standard deviation of the gain: some 0.03 % a kelvin.</summary>
    public const double Gain = 0.001;

    /// <summary>Relative standard deviation of the read noise: half of it goes with the root of the absolute temperature, 0.17 % a kelvin.</summary>
    public const double ReadNoise = 0.0025;

    /// <summary>Relative standard deviation of a saturation signal: a clipped code stands still, a full well moves by some 0.02 % a kelvin.</summary>
    public const double Saturation = 0.0005;

    /// <summary>Relative standard deviation of an exposure time from one release to another: within 1 %.</summary>
    public const double Shutter = 0.01 / Root3;

    /// <summary>What a shutter is off at its shortest times, in seconds: 2 % of 1/8000 s.</summary>
    public const double ShutterSeconds = 2.5e-6;

    /// <summary>Relative standard deviation of the lamp between metering and frames: within 1 %.</summary>
    public const double Light = 0.01 / Root3;

    /// <summary>Relative standard deviation of what a diaphragm passes from one closing to another: within 1 %.</summary>
    public const double Aperture = 0.01 / Root3;

    private const double Root3 = 1.7320508075688772;
}
