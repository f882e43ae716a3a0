namespace SensorLab;

/// <summary>How far a characterisation has come.</summary>
/// <param name="FramesDone">Frames read and measured.</param>
/// <param name="FramesTotal">Frames of the set.</param>
/// <param name="File">The frame last read, inside the frame set.</param>
public readonly record struct CharacterisationProgress(int FramesDone, int FramesTotal, string File);
