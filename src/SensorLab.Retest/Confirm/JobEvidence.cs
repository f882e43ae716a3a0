using SensorLab.Profiles;

namespace SensorLab.Retest.Confirm;

/// <summary>What a job's raw files show by themselves: identities, modes, and what was measured of each ISO.</summary>
public sealed record JobEvidence
{
    /// <summary>The bodies named, each once; parts that a file does not say are null.</summary>
    public required IReadOnlyList<BodyIdentity> Bodies { get; init; }

    /// <summary>How recording modes differ from the profile's, a phrase each; empty where none does.</summary>
    public IReadOnlyList<string> ModeDifferences { get; init; } = [];

    /// <summary>How the frames recorded.</summary>
    public required RecordedMode Mode { get; init; }

    /// <summary>What was measured of each ISO that the profile holds.</summary>
    public required IReadOnlyList<IsoEvidence> Isos { get; init; }

    /// <summary>Which frames were told to be dark or evenly lit by their photosites, a sentence each.</summary>
    public IReadOnlyList<string> ToldByPixels { get; init; } = [];

    /// <summary>Frames looked at.</summary>
    public required int Frames { get; init; }
}
