namespace SensorLab.Retest.Confirm;

/// <summary>What a job's frames show of an ISO.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="Channels">Of each channel.</param>
public sealed record IsoEvidence(int Iso, IReadOnlyList<ChannelEvidence> Channels);
