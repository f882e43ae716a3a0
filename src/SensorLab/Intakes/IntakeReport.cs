using SensorLab.Profiles;

namespace SensorLab.Intakes;

/// <summary>What the frames of a set are and what is wrong with them; nothing in it comes from a fit but findings.</summary>
public sealed record IntakeReport
{
    /// <summary>Whether <see cref="Characterisation.RunAsync"/> gives a profile of the set; it answers the same by construction.</summary>
    public required bool CanBeCharacterised { get; init; }

    /// <summary>Whether a refused set can be characterised once middle grey is taken from saturation.</summary>
    public bool CanBeWithGreyFromSaturation { get; init; }

    /// <summary>The body; null where no frame could be opened.</summary>
    public BodyIdentity? Body { get; init; }

    /// <summary>The recording mode of the first frame; null where no frame could be opened.</summary>
    public RecordedMode? RecordingMode { get; init; }

    /// <summary>The sensor; null where no frame could be opened.</summary>
    public SensorGeometry? Sensor { get; init; }

    /// <summary>Where was measured; null where nothing was.</summary>
    public MeasuredRegion? Region { get; init; }

    /// <summary>Where the spot meter is taken to look; null where nothing was measured.</summary>
    public MeasuredRegion? Spot { get; init; }

    /// <summary>The frame that shows the field: a metered one, else one of the bracket; null where nothing was measured.</summary>
    public string? FieldFrame { get; init; }

    /// <summary>What there is at each ISO, in rising order.</summary>
    public required IReadOnlyList<IntakeIso> Isos { get; init; }

    /// <summary>Raw files in the folder.</summary>
    public required int RawFiles { get; init; }

    /// <summary>Raw files that no figure would rest on.</summary>
    public required IReadOnlyList<string> LeftOut { get; init; }

    /// <summary>Raw files that frames.csv gives the role none; they are counted here alone.</summary>
    public int FramesSetAside { get; init; }

    /// <summary>Files that are neither raw files nor frames.csv.</summary>
    public required int FilesIgnored { get; init; }

    /// <summary>All findings, the worst first.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}
