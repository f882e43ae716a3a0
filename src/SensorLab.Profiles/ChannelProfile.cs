using System.Text.Json.Serialization;

namespace SensorLab.Profiles;

/// <summary>The figures of one channel at one ISO; null where a figure could not be had.</summary>
public sealed record ChannelProfile
{
    /// <summary>R, G1, G2, B or Y.</summary>
    public required string Name { get; init; }

    /// <summary>The black level that the files declare, in DN; null where they declare none.</summary>
    public double? DeclaredBlackDn { get; init; }

    /// <summary>The white level that the files declare, in DN; null where they declare none.</summary>
    public double? DeclaredWhiteDn { get; init; }

    /// <summary>Black level in DN: the mean of the dark frames.</summary>
    public Figure? BlackLevelDn { get; init; }

    /// <summary>System gain's reciprocal g = 1/K in e⁻/DN (EMVA 1288 R4, photon transfer method).</summary>
    public Figure? GainElectronPerDn { get; init; }

    /// <summary>Read noise in e⁻ of one pixel, temporal row noise included, quantisation removed (EMVA 1288 σ_d).</summary>
    public Figure? ReadNoiseElectron { get; init; }

    /// <summary>Read noise in DN, quantisation removed.</summary>
    public Figure? ReadNoiseDn { get; init; }

    /// <summary>Saturation signal above black in DN.</summary>
    public Figure? SaturationDn { get; init; }

    /// <summary>Saturation signal in e⁻.</summary>
    public Figure? SaturationElectron { get; init; }

    /// <summary>The mean signal above black in DN at which the first 0.1 % of pixels clip.</summary>
    public Figure? FirstClipDn { get; init; }

    /// <summary>Photo-response non-uniformity in percent of the signal (EMVA 1288 R4).</summary>
    public Figure? PrnuPercent { get; init; }

    /// <summary>Dark-signal non-uniformity in e⁻ (EMVA 1288 R4).</summary>
    public Figure? DsnuElectron { get; init; }

    /// <summary>Temporal row noise in e⁻, a part of the read noise.</summary>
    public Figure? RowNoiseElectron { get; init; }

    /// <summary>Temporal column noise in e⁻.</summary>
    public Figure? ColumnNoiseElectron { get; init; }

    /// <summary>The row part of DSNU in e⁻.</summary>
    public Figure? DsnuRowElectron { get; init; }

    /// <summary>The column part of DSNU in e⁻.</summary>
    public Figure? DsnuColumnElectron { get; init; }

    /// <summary>The row part of PRNU in percent.</summary>
    public Figure? PrnuRowPercent { get; init; }

    /// <summary>The column part of PRNU in percent.</summary>
    public Figure? PrnuColumnPercent { get; init; }

    /// <summary>Linearity error in percent (EMVA 1288 R4).</summary>
    public Figure? LinearityErrorPercent { get; init; }

    /// <summary>The largest deviation from linearity in percent.</summary>
    public Figure? LinearityLargestPercent { get; init; }

    /// <summary>
    /// Share of the signal in percent that the response lacks at saturation, taken out of gain, saturation in electrons and
    /// latitude; null where the response is straight as far as could be told.
    /// </summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public Figure? CompressionPercent { get; init; }

    /// <summary>Middle grey's signal above black in DN, free of the meter's own uncertainty.</summary>
    public Figure? MiddleGreyDn { get; init; }

    /// <summary>The latitude of this channel.</summary>
    public required ChannelLatitude Latitude { get; init; }

    /// <summary>The noise profile of this channel as DNG defines it.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public DngNoiseProfile? DngNoiseProfile { get; init; }
}
