namespace SensorLab.Planning.Plans;

/// <summary>What a lamp on the mains does to an exposure: it pulses twice a cycle, and a shutter that opens for whole pulses does not see it.</summary>
/// <param name="FrequencyHz">The mains' frequency: 50 or 60.</param>
/// <remarks>
/// Light 1 + A·sin(2π·2f·t) over an exposure T departs from its mean by at most A·|sin(πn)|/(πn), n = 2f·T pulses: row by row
/// under a rolling shutter, frame by frame under any.
/// </remarks>
public readonly record struct MainsLight(int FrequencyHz)
{
    /// <summary>
    /// How much of its light a lamp may gain and lose in a pulse: 15 %. Filament lamps of 40 W and more at full power stay below;
    /// dimmed lamps, tubes on old ballasts and simple LED lamps do not. Ours, a little above what filaments' heat lets through.
    /// </summary>
    public const double LampRipple = 0.15;

    /// <summary>The departure of light that does no harm: 0.3 % is 0.004 EV, a tenth of what latitude may be off.</summary>
    public const double HarmlessRipple = 0.003;

    /// <summary>Pulses a second.</summary>
    public int PulsesPerSecond => 2 * FrequencyHz;

    /// <summary>The largest departure of an exposure's light from its mean, for a lamp of <see cref="LampRipple"/>; as a share.</summary>
    /// <param name="time">The exposure; both what is engraved and what most bodies expose are looked at, and the worse counts.</param>
    public double RippleAt(ShutterTime time) => LampRipple * Math.Max(Share(time.EngravedSeconds), Share(time.ExactSeconds));

    /// <summary>Whether an exposure shows neither bands nor flicker.</summary>
    /// <param name="time">The exposure.</param>
    public bool IsSteadyAt(ShutterTime time) => RippleAt(time) <= HarmlessRipple;

    private double Share(double seconds)
    {
        double phase = Math.PI * PulsesPerSecond * seconds;
        return Math.Abs(Math.Sin(phase)) / phase;
    }
}
