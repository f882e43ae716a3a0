namespace SensorLab.FlawMatrix.Foreign;

/// <summary>All flaws by other laws than the catalogue's.</summary>
internal static class ForeignFlaws
{
    public static IReadOnlyList<ForeignFlaw> All { get; } = [.. ForeignLights.All, .. ForeignSensors.All, .. ForeignDefects.All, .. ForeignFiles.All, .. ForeignReadouts.All, .. ForeignMembers.All, .. ForeignHistories.All, .. ForeignPatterns.All, .. ForeignModes.All, .. ForeignAccidents.All, .. ForeignConverters.All, .. ForeignMirrors.All];

    /// <summary>The flaw of a name.</summary>
    public static ForeignFlaw Named(string name) => All.Single(f => f.Name == name);
}
