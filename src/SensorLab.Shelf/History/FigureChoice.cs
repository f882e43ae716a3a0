using System.Globalization;
using SensorLab.Profiles;
using SensorLab.Retest;

namespace SensorLab.Shelf.History;

/// <summary>Which figures a question is about.</summary>
/// <param name="Iso">The ISO; null for all.</param>
/// <param name="Name">
/// A figure's whole name, its beginning as <c>belowEv</c> or <c>belowEv.snr10</c>, or its end as <c>clipEv</c>; null for what a
/// body is watched by: where the latitude ends, and green's read noise.
/// </param>
public sealed record FigureChoice(int? Iso, string? Name)
{
    private const string ReadNoise = "readNoiseElectron";

    private static readonly string[] WatchedOfIso = ["aboveEv", "belowEv.snr10.perPixel"];

    /// <summary>Names of what a body is watched by.</summary>
    internal static IReadOnlyList<string> WatchedNames { get; } = [.. WatchedOfIso, ReadNoise];

    /// <summary>The choice in words, to follow "holds".</summary>
    public string InWords => (Name is null ? "such figures" : $"the figure {Name}") + (Iso is { } iso ? string.Create(CultureInfo.InvariantCulture, $" at ISO {iso}") : string.Empty);

    /// <summary>Whether a figure is chosen.</summary>
    /// <param name="address">The figure.</param>
    public bool Includes(FigureAddress address) => (Iso is null || address.Iso == Iso) && (Name is null ? IsWatched(address) : IsNamed(address.Name, Name));

    private static bool IsWatched(FigureAddress address) =>
        (address.Channel is null && WatchedOfIso.Contains(address.Name)) || (address.Name == ReadNoise && address.Channel is { } channel && ChannelName.LeadsPool(channel));

    private static bool IsNamed(string figure, string name) =>
        figure == name || figure.StartsWith(name + ".", StringComparison.Ordinal) || figure.EndsWith("." + name, StringComparison.Ordinal);
}
