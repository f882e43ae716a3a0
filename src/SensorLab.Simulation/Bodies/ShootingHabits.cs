namespace SensorLab.Simulation.Bodies;

/// <summary>How the photographer of a rehearsal works.</summary>
public sealed record ShootingHabits
{
    /// <summary>Frames of a bracket level, 1 or more.</summary>
    public int FramesPerLevel { get; init; } = 2;

    /// <summary>Dark frames an ISO, an even number, 2 or more: half at a short and half at a long time of the bracket.</summary>
    public int DarkFrames { get; init; } = 4;

    /// <summary>Independent meter readings an ISO, 1 or more: each after moving the lamp, at another exposure time.</summary>
    public int MeterReadings { get; init; } = 2;

    /// <summary>Frames of each meter reading, 1 or more.</summary>
    public int FramesPerReading { get; init; } = 2;

    /// <summary>The step of the meter's display in EV: it reads zero over half a step to either side. 0 or more.</summary>
    public double MeterStepEv { get; init; } = 1.0 / 3;

    /// <summary>Bracket levels past the first one that saturates every channel, 0 or more.</summary>
    public int LevelsPastSaturation { get; init; } = 2;

    /// <summary>Aperture as f-number, above 0.</summary>
    public double ApertureFNumber { get; init; } = 5.6;
}
