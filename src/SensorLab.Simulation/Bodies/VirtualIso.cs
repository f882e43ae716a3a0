namespace SensorLab.Simulation.Bodies;

/// <summary>One ISO setting of a virtual body: its converter, its noise, and where its meter puts middle grey.</summary>
public sealed record VirtualIso
{
    /// <summary>The factor of a setting without a digital push.</summary>
    internal const double NoDigitalFactor = 1;

    /// <summary>ISO setting, 1 or more.</summary>
    public required int Iso { get; init; }

    /// <summary>Electrons a code (g = 1/K), above 0.</summary>
    public required double GainElectronPerDn { get; init; }

    /// <summary>Temporal noise without light of one pixel in e⁻, row and column noise included, rounding not.</summary>
    public required double ReadNoiseElectron { get; init; }

    /// <summary>Mean electrons of a photosite of sensitivity 1 where the meter reads exactly zero, above 0.</summary>
    public required double MiddleGreyElectron { get; init; }

    /// <summary>
    /// The factor by which codes are multiplied after the converter (a digital push), 1 or more: the converter itself
    /// counts <see cref="GainElectronPerDn"/> times this many electrons a code, and codes have gaps.
    /// </summary>
    public double DigitalFactor { get; init; } = NoDigitalFactor;

    /// <summary>Full well in e⁻ at this setting (a second conversion gain may hold less); null for the body's.</summary>
    public double? FullWellElectron { get; init; }
}
