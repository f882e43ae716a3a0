using System.Net;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Bench;

/// <summary>What a bench is started with.</summary>
public sealed record BenchOptions
{
    /// <summary>The folder to open at once; null for the set that was open last, if it is still there.</summary>
    public string? Folder { get; init; }

    /// <summary>The port; 0 for any that is free.</summary>
    public int Port { get; init; }

    /// <summary>Whether phones on the same network may open the pocket sheet and the shot list.</summary>
    public bool IsShared { get; init; }

    /// <summary>The address that phones reach; null for this machine's own on its network.</summary>
    internal IPAddress? ShareAddress { get; init; }

    /// <summary>Where sets are remembered and results kept; empty where the system names no folder for it: then nothing outlives the bench.</summary>
    public string DataFolder { get; init; } = string.Empty;

    /// <summary>How sets are measured; what the user's settings say is in it.</summary>
    public CharacterisationOptions Characterisation { get; init; } = new();

    /// <summary>The body's exposure times, as the plan's form begins with.</summary>
    public ShutterRange Shutter { get; init; } = ShutterRange.Common;

    /// <summary>The mains' frequency in Hz, as the plan's form begins with; null for light that does not pulse.</summary>
    public int? MainsHz { get; init; }

    /// <summary>The private key that the page offers to sign bundles with; null for none.</summary>
    public string? KeyPath { get; init; }

    /// <summary>The user's shelf; null for none: the page then shows nothing of it.</summary>
    public IBenchShelf? Shelf { get; init; }

    /// <summary>Reads a profile from a file that the user names: a document, unless what starts the bench can read more.</summary>
    public Func<string, CancellationToken, SensorProfile> ReadProfile { get; init; } = (path, _) => SensorProfileReader.ReadFile(path);

    /// <summary>How often the folder is looked at: two looks and the reading of a frame take less than two seconds.</summary>
    public TimeSpan PollInterval { get; init; } = TimeSpan.FromSeconds(0.8);
}
