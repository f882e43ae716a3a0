namespace SensorLab.Profiles.Placement;

/// <summary>What a placement needs of one ISO; every figure with the meter where it places a tone.</summary>
public sealed record PocketIso
{
    /// <summary>The ISO.</summary>
    public required int Iso { get; init; }

    /// <summary>Its speed in EV above ISO 100, by the third that the setting names.</summary>
    public required double SpeedEv { get; init; }

    /// <summary>By how much middle grey moves from set to set, in EV; null where it was not metered.</summary>
    public double? GreyStandardUncertaintyEv { get; init; }

    /// <summary>The bright end, under the set's own light first, then under each light that was measured.</summary>
    public required IReadOnlyList<PocketLight> Lights { get; init; }

    /// <summary>Under a light that was not measured, the most that the bright end can be; null for a monochrome sensor.</summary>
    public Figure? AboveAnyLightEv { get; init; }

    /// <summary>Where shadows are still clean: SNR 20, signed.</summary>
    public Figure? DarkestCleanEv { get; init; }

    /// <summary>Where shadows still hold texture: SNR 10, signed.</summary>
    public Figure? DarkestTexturedEv { get; init; }

    /// <summary>Where shadows still hold tone: SNR 4, signed.</summary>
    public Figure? DarkestToneEv { get; init; }

    /// <summary>Where the camera's warnings appear in each look, the most truthful one first.</summary>
    public IReadOnlyList<PlacedLook> Looks { get; init; } = [];

    /// <summary>The same looks as measured, with their tone curves.</summary>
    public IReadOnlyList<PreviewProfile> Previews { get; init; } = [];

    /// <summary>What is missing at this ISO, or rests on something, in sentences.</summary>
    public IReadOnlyList<string> Cautions { get; init; } = [];

    /// <summary>From an ISO's profile.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="iso">The ISO's profile.</param>
    internal static PocketIso Of(SensorProfile profile, IsoProfile iso)
    {
        EvAxis axis = EvAxis.Of(profile, iso.Iso);
        Figure? textured = axis.DarkestEv(EvAxis.TextureSnr);
        return new PocketIso
        {
            Iso = iso.Iso,
            SpeedEv = ThirdStopScale.SpeedEv(iso.Iso),
            GreyStandardUncertaintyEv = axis.GreyStandardUncertaintyEv,
            Lights = [LightOf(null, axis), .. profile.Lights.Select(l => l.Name).Distinct().Select(name => LightOf(name, EvAxis.Of(profile, iso.Iso, name)))],
            AboveAnyLightEv = axis.AboveAnyLightEv,
            DarkestCleanEv = axis.DarkestEv(EvAxis.CleanSnr),
            DarkestTexturedEv = textured,
            DarkestToneEv = axis.DarkestEv(EvAxis.ToneSnr),
            Looks = PlacedLook.Of(axis, iso),
            Previews = iso.Previews,
            Cautions = [.. PlacementCautions.OfIso(profile, axis, textured), .. MoreCautions(profile, iso)],
        };
    }

    private static PocketLight LightOf(string? name, EvAxis axis) => new(name, axis.AboveEv, axis.BrightestTexturedEv(), axis.LimitingChannel);

    private static IEnumerable<string> MoreCautions(SensorProfile profile, IsoProfile iso)
    {
        if (iso.Previews.Count == 0)
        {
            yield return "No preview was measured at this ISO: what the camera's warnings mean is not known.";
        }

        string[] doubts = [.. profile.Findings.Where(f => f.Severity == FindingSeverity.Warning && (f.Iso is null || f.Iso == iso.Iso)).Select(f => f.Code).Distinct()];
        if (doubts.Length > 0)
        {
            yield return $"In doubt by the profile's warnings: {string.Join(", ", doubts)}.";
        }
    }
}
