namespace SensorLab.Measurement.Figures;

/// <summary>Figures of an ISO that one cause moves together.</summary>
[Flags]
internal enum FigureKinds
{
    /// <summary>No figure.</summary>
    None = 0,

    /// <summary>Gain in e⁻/DN.</summary>
    Gain = 1,

    /// <summary>Read noise in DN.</summary>
    ReadNoiseDn = 1 << 1,

    /// <summary>Noise and pattern in e⁻: read noise, rows, columns, DSNU and its parts.</summary>
    NoiseElectron = 1 << 2,

    /// <summary>Saturation in e⁻.</summary>
    SaturationElectron = 1 << 3,

    /// <summary>PRNU and its parts in percent.</summary>
    Prnu = 1 << 4,

    /// <summary>Saturation in DN.</summary>
    SaturationDn = 1 << 5,

    /// <summary>From middle grey to saturation in EV.</summary>
    Above = 1 << 6,

    /// <summary>From middle grey to the first clipped pixels in EV.</summary>
    FirstClip = 1 << 7,

    /// <summary>Shadow ends in EV, of a pixel and at the delivery size.</summary>
    ShadowEnd = 1 << 8,

    /// <summary>From the shadow end to saturation in EV.</summary>
    Span = 1 << 9,

    /// <summary>The curve of total SNR.</summary>
    SnrTotal = 1 << 10,

    /// <summary>Where bands begin to show, in EV below middle grey.</summary>
    BandsEnd = 1 << 11,

    /// <summary>Black in DN.</summary>
    Black = 1 << 12,

    /// <summary>The curve of temporal SNR.</summary>
    SnrTemporal = 1 << 13,

    /// <summary>Both curves.</summary>
    Snr = SnrTotal | SnrTemporal,

    /// <summary>What photons' noise is the yardstick of: all that is in e⁻.</summary>
    Electrons = Gain | NoiseElectron | SaturationElectron,

    /// <summary>How far down noise lets one go.</summary>
    Shadows = ShadowEnd | Span,
}
