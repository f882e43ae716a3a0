using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Figures;

/// <summary>What the figures of an ISO depend on beside its levels.</summary>
public sealed record IsoOptions
{
    /// <summary>How middle grey is defined.</summary>
    public GreyMethod Grey { get; init; } = GreyMethod.Metered;

    /// <summary>The meter's step in EV.</summary>
    public double MeterStepEv { get; init; } = 1.0 / 3.0;

    /// <summary>SNR criteria in falling order.</summary>
    public IReadOnlyList<double> SnrCriteria { get; init; } = StandardCriteria;

    /// <summary>The size the picture is delivered at.</summary>
    public Delivery? Delivery { get; init; }

    /// <summary>Active photosites of the sensor; for the delivery size.</summary>
    public long SensorPixels { get; init; }

    /// <summary>The black level that the files declare, by channel, in DN.</summary>
    public IReadOnlyDictionary<string, double> DeclaredBlackDn { get; init; } = new Dictionary<string, double>();

    /// <summary>The white level that the files declare, in DN.</summary>
    public double? DeclaredWhiteDn { get; init; }

    /// <summary>
    /// Light that the darkest part of the field lacks to the brightest, as a share, where a part of the field was left
    /// out for it; null where all of it was measured, or where the user named the region.
    /// </summary>
    public double? FieldMissing { get; init; }

    /// <summary>The criteria of every profile: 40 and 10 as in ISO 12232, 20, 4, and 1 as in EMVA 1288.</summary>
    public static IReadOnlyList<double> StandardCriteria { get; } = [40, 20, 10, 4, 1];
}
