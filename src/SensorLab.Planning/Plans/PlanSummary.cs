namespace SensorLab.Planning.Plans;

/// <summary>What a plan takes.</summary>
/// <param name="Frames">Frames.</param>
/// <param name="Minutes">Minutes from the first frame to the last.</param>
/// <param name="CardGigabytes">Room on the card in 10⁹ bytes, without previews of their own.</param>
/// <param name="DialTurns">How often a dial is turned.</param>
/// <param name="LightMoves">How often lamp or filter is moved, the trimming at each ISO not counted.</param>
public sealed record PlanSummary(int Frames, int Minutes, double CardGigabytes, int DialTurns, int LightMoves);
