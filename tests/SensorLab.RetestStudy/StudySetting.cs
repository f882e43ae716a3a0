namespace SensorLab.RetestStudy;

/// <summary>How a set is shot: the protocol, and what is not the same from set to set.</summary>
internal sealed record StudySetting
{
    /// <summary>Photosites a channel in the region, as rows × columns.</summary>
    public int Rows { get; init; } = 200;

    public int Columns { get; init; } = 300;

    /// <summary>Frames of a bracket level: two pairs.</summary>
    public int BracketFrames { get; init; } = 4;

    public int DarkFrames { get; init; } = 8;

    public int MeteredFrames { get; init; } = 4;

    /// <summary>Standard deviation of the lamp's strength between sets, as a share: every level lies elsewhere.</summary>
    public double RelitShare { get; init; } = 0.1;

    /// <summary>Standard deviation of the temperature between sets, in degrees; dark current doubles every 6.5.</summary>
    public double TemperatureCelsius { get; init; } = 4;

    /// <summary>The step of the meter's display in EV: each reading lies anywhere within it. 0 for metered alike.</summary>
    public double MeterStepEv { get; init; }

    /// <summary>Independent meter readings an ISO.</summary>
    public int MeterReadings { get; init; } = 2;

    /// <summary>Standard deviation of a pull of the shutter or the lamp from one level to the next, as a share.</summary>
    public double LevelScatterShare { get; init; }

    /// <summary>The most that the lamp drifts between metering and frames, as a share.</summary>
    public double LampDriftShare { get; init; }

    /// <summary>The most that the room's temperature is off; the body's figures move by coefficients of their own.</summary>
    public double RoomCelsius { get; init; }

    /// <summary>What realistic sets scatter by: the meter within its zero, shutter and lamp by a percent.</summary>
    public static StudySetting Realistic { get; } = new() { MeterStepEv = 1.0 / 3, LevelScatterShare = 0.01, LampDriftShare = 0.01, RoomCelsius = 5 };
}
