namespace SensorLab.Shelf;

/// <summary>A profile on the shelf, without its figures.</summary>
/// <param name="Key">Its key, 64 hexadecimal digits: the name of its file.</param>
/// <param name="Body">The body.</param>
/// <param name="Firmware">The firmware; null where its frames do not say.</param>
/// <param name="CreatedUtc">The last frame's time; null where frames have none.</param>
/// <param name="Mode">How the body recorded, on one line; empty where the frames do not say.</param>
/// <param name="Isos">The ISOs that it holds, rising.</param>
/// <param name="Warnings">Findings that weigh more than a note.</param>
/// <param name="Software">What wrote it.</param>
public sealed record ShelvedProfile(
    string Key,
    ShelfBody Body,
    string? Firmware,
    DateTimeOffset? CreatedUtc,
    string Mode,
    IReadOnlyList<int> Isos,
    int Warnings,
    string Software)
{
    /// <summary>The order of a body's course: by time, those without one first; the key decides between equals.</summary>
    public static IComparer<ShelvedProfile> ByTime { get; } = Comparer<ShelvedProfile>.Create((a, b) =>
        Nullable.Compare(a.CreatedUtc, b.CreatedUtc) is not 0 and var order ? order : string.CompareOrdinal(a.Key, b.Key));
}
