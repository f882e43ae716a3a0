using System.Text.Json.Nodes;
using SensorLab.Bench.Api;

namespace SensorLab.Bench.Sessions;

/// <summary>What is needed to open a set again where it was: the folder holds the rest.</summary>
internal sealed record JournalEntry(string Folder, JsonObject? Plan, IReadOnlyList<MeteredRequest> Metered, IReadOnlyDictionary<string, double> Wanted);
