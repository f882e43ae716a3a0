using System.Text.Json.Nodes;
using SensorLab.Bench.Api;

namespace SensorLab.Bench.Sessions;

/// <summary>What is needed to open a set again where it was: the folder holds the rest.</summary>
internal sealed record JournalEntry(string Folder, JsonObject? Plan, IReadOnlyList<MeteredRequest> Metered, IReadOnlyDictionary<string, double> Wanted)
{
    // No set is metered at more settings than it has ISOs.
    private const int MostMetered = 1000;

    /// <summary>Whether it can be opened; a document that is read may lack any part.</summary>
    public bool IsSound => this is { Folder.Length: > 0, Metered.Count: <= MostMetered, Wanted: not null } && Metered.All(m => m is { ExposureSeconds: > 0 and < 1e6, Iso: > 0 });
}
