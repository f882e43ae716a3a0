namespace SensorLab.Profiles.Placement;

/// <summary>A spot reading as dialled: the settings at which the meter reads zero on a tone; or an exposure to set.</summary>
/// <remarks>
/// Labels are taken for the thirds of a stop that they name. Readings at several ISO settings compare as far as the
/// camera's meter goes by the settings' names, which middle grey, metered at each ISO, assumes too.
/// </remarks>
public readonly record struct SpotReading
{
    /// <summary>A reading.</summary>
    /// <param name="shutterSeconds">The shutter time in seconds, above 0.</param>
    /// <param name="apertureFNumber">The f-number, above 0.</param>
    /// <param name="iso">The ISO setting, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or not above 0.</exception>
    public SpotReading(double shutterSeconds, double apertureFNumber, int iso)
    {
        RequirePositive(shutterSeconds, nameof(shutterSeconds));
        RequirePositive(apertureFNumber, nameof(apertureFNumber));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(iso);
        (ShutterSeconds, ApertureFNumber, Iso) = (shutterSeconds, apertureFNumber, iso);
    }

    /// <summary>The shutter time in seconds.</summary>
    public double ShutterSeconds { get; }

    /// <summary>The f-number.</summary>
    public double ApertureFNumber { get; }

    /// <summary>The ISO setting.</summary>
    public int Iso { get; }

    /// <summary>The light that these settings put at middle grey, in EV at ISO 100: log2(N²/t) − log2(ISO/100). Brighter light is more.</summary>
    public double LightEv =>
        ((ThirdStopScale.ApertureThirds(ApertureFNumber) - ThirdStopScale.ShutterThirds(ShutterSeconds)) / ThirdStopScale.StepsAnEv) - ThirdStopScale.SpeedEv(Iso);

    private static void RequirePositive(double number, string name)
    {
        if (!double.IsFinite(number) || number <= 0)
        {
            throw new ArgumentOutOfRangeException(name, number, "A setting is finite and above 0.");
        }
    }
}
