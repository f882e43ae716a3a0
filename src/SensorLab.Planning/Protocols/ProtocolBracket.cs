namespace SensorLab.Planning.Protocols;

/// <summary>The bracket of an ISO.</summary>
/// <param name="FramesPerLevel">Frames at every level, 2 or more.</param>
/// <param name="BrightestEv">The brightest level in EV from middle grey.</param>
/// <param name="FineDownToEv">Where the fine steps end, in EV from middle grey.</param>
/// <param name="FineStepsPerStop">Steps a stop down to there: 1 or 3.</param>
/// <param name="CoarseStepStops">Stops from level to level below.</param>
/// <param name="ShadowSnr">The darkest level is where a green pixel's SNR falls to this.</param>
public sealed record ProtocolBracket(int FramesPerLevel, int BrightestEv, int FineDownToEv, int FineStepsPerStop, int CoarseStepStops, double ShadowSnr);
