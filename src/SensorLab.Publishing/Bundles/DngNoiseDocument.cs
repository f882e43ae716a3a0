using SensorLab.Profiles;

namespace SensorLab.Publishing.Bundles;

/// <summary>The noise profiles of a bundle for raw converters, per ISO and channel.</summary>
/// <param name="Format">Always <c>sensorlab-dng-noise-profiles</c>.</param>
/// <param name="FormatVersion">Major.minor, by the rules of the sensor profile's.</param>
/// <param name="Maker">The body's maker.</param>
/// <param name="Model">The body's model.</param>
/// <param name="Definition">What the numbers are.</param>
/// <param name="NoiseProfiles">One entry an ISO and channel.</param>
internal sealed record DngNoiseDocument(
    string Format, string FormatVersion, string? Maker, string? Model, string Definition, IReadOnlyList<DngNoiseEntry> NoiseProfiles)
{
    private const string What =
        "σ = √(scale·x + offset), the standard deviation of one pixel at the signal x, 0 at the black level and 1 at the white level that the file declares: DNG 1.7, tag NoiseProfile. Null where it was not measured.";

    /// <summary>The document of a profile.</summary>
    public static DngNoiseDocument Of(SensorProfile profile) => new(
        "sensorlab-dng-noise-profiles", "1.0", profile.Body.Maker, profile.Body.Model, What, DngNoiseEntry.AllOf(profile));
}
