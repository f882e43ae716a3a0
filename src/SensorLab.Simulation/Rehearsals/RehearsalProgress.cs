namespace SensorLab.Simulation.Rehearsals;

/// <summary>How far a rehearsal is.</summary>
/// <param name="FramesWritten">Frames written.</param>
/// <param name="FramesPlanned">Frames of the whole rehearsal.</param>
public readonly record struct RehearsalProgress(int FramesWritten, int FramesPlanned);
