namespace SensorLab.Simulation.Rehearsals;

/// <summary>What is true of one ISO of a rehearsal, in the contract's names; green or monochrome where channels differ.</summary>
/// <remarks>
/// Read noise includes temporal row and column noise, not rounding. <c>belowEv</c> rests on the total SNR of one green
/// pixel: read noise, DSNU, shot noise, PRNU, and a step's twelfth of rounding whatever the noise.
/// </remarks>
public sealed record IsoTruth
{
    /// <summary>ISO setting.</summary>
    public required int Iso { get; init; }

    /// <summary>Gain in e⁻/DN.</summary>
    public required double GainElectronPerDn { get; init; }

    /// <summary>Read noise in e⁻.</summary>
    public required double ReadNoiseElectron { get; init; }

    /// <summary>Black level in DN.</summary>
    public required double BlackLevelDn { get; init; }

    /// <summary>Black level of the optical black pixels in DN; null where files have none.</summary>
    public double? OpticalBlackLevelDn { get; init; }

    /// <summary>Plateau above black in DN.</summary>
    public required double SaturationDn { get; init; }

    /// <summary>Electrons that a photosite holds at the plateau, what a compressed response lacks included.</summary>
    public required double SaturationElectron { get; init; }

    /// <summary>Signal at which 0.1 % of the pixels clip, in DN above black; null where the full well clips first.</summary>
    public double? FirstClipDn { get; init; }

    /// <summary>Mean signal of green in the metered frames, in DN above black; null without metered frames.</summary>
    public double? MiddleGreyDn { get; init; }

    /// <summary>log2 of the exposure that saturates the first channel over that of the metered frames as they were realised; null without them.</summary>
    public double? AboveEv { get; init; }

    /// <summary>PRNU in percent, row and column parts included.</summary>
    public required double PrnuPercent { get; init; }

    /// <summary>DSNU in e⁻, row and column parts included.</summary>
    public required double DsnuElectron { get; init; }

    /// <summary>Temporal row noise in e⁻.</summary>
    public required double RowNoiseElectron { get; init; }

    /// <summary>Temporal column noise in e⁻.</summary>
    public required double ColumnNoiseElectron { get; init; }

    /// <summary>The previews; null where files have none or nothing defines middle grey.</summary>
    public IReadOnlyList<PreviewTruth>? Previews { get; init; }

    /// <summary>Stops below middle grey at which the total SNR is 40, 20, 10, 4 and 1, as snr40 … snr1; without those it never reaches.</summary>
    public IReadOnlyDictionary<string, double> BelowEv { get; init; } = new Dictionary<string, double>();
}
