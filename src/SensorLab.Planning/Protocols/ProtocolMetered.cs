namespace SensorLab.Planning.Protocols;

/// <summary>The metered frames of an ISO.</summary>
/// <param name="FramesPerEdge">Frames at each edge of the meter's zero.</param>
public sealed record ProtocolMetered(int FramesPerEdge);
