namespace SensorLab.Profiles;

/// <summary>Under what conditions the frames were shot; null where nothing says.</summary>
public sealed record ShootingConditions
{
    /// <summary>The light.</summary>
    public string? Light { get; init; }

    /// <summary>The lens.</summary>
    public string? Lens { get; init; }

    /// <summary>Aperture of the bracket as f-number.</summary>
    public double? ApertureFNumber { get; init; }

    /// <summary>Temperature in degrees Celsius.</summary>
    public double? TemperatureCelsius { get; init; }

    /// <summary>The protocol that was followed, with its version.</summary>
    public string? Protocol { get; init; }

    /// <summary>The region measured.</summary>
    public MeasuredRegion? Region { get; init; }
}
