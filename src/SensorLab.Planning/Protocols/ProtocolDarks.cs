namespace SensorLab.Planning.Protocols;

/// <summary>The dark frames of an ISO.</summary>
/// <param name="FramesAtShortest">Frames at the bracket's shortest time.</param>
/// <param name="FramesAtLongest">Frames at the bracket's longest time.</param>
/// <param name="LadderSeconds">Further times in seconds.</param>
/// <param name="FramesPerRung">Frames at each of these.</param>
public sealed record ProtocolDarks(int FramesAtShortest, int FramesAtLongest, IReadOnlyList<double> LadderSeconds, int FramesPerRung);
