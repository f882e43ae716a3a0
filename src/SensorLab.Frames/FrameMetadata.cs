namespace SensorLab.Frames;

/// <summary>What a frame says of itself; null where it does not say.</summary>
public sealed record FrameMetadata
{
    /// <summary>ISO setting, 1 or more.</summary>
    public int? Iso { get; init; }

    /// <summary>Exposure time in seconds, above 0.</summary>
    public double? ExposureSeconds { get; init; }

    /// <summary>Aperture as f-number; 0 from a lens without contacts.</summary>
    public double? ApertureFNumber { get; init; }

    /// <summary>The body's maker.</summary>
    public string? Maker { get; init; }

    /// <summary>The body's model.</summary>
    public string? Model { get; init; }

    /// <summary>The body's serial number.</summary>
    public string? SerialNumber { get; init; }

    /// <summary>The body's firmware: the maker's note, else TIFF's Software.</summary>
    public string? Firmware { get; init; }

    /// <summary>Whether <see cref="Firmware"/> is a converter's name and not the body's own firmware.</summary>
    public bool FirmwareIsConverter { get; init; }

    /// <summary>When the frame was taken: its offset tag honoured, else taken as UTC.</summary>
    public DateTimeOffset? CaptureTime { get; init; }

    /// <summary>How the camera metered.</summary>
    public MeteringMode Metering { get; init; }

    /// <summary>Exposure compensation in EV.</summary>
    public double? ExposureCompensationEv { get; init; }

    /// <summary>White balance in force.</summary>
    public string? WhiteBalance { get; init; }

    /// <summary>The camera's picture setting that shapes its preview.</summary>
    public string? Look { get; init; }

    /// <summary>The lens.</summary>
    public string? Lens { get; init; }

    /// <summary>The sensor's or the camera's temperature in degrees Celsius.</summary>
    public double? TemperatureCelsius { get; init; }

    /// <summary>How the body recorded.</summary>
    public RecordingMode Mode { get; init; } = new();
}
