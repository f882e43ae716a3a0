namespace SensorLab.Retest;

/// <summary>What a re-test means for the next assignment.</summary>
/// <param name="Recommendation">The one thing to do.</param>
/// <param name="Sentence">The same in words, with the frames to shoot where there are any.</param>
/// <param name="Tones">Which tones move on location, by how many stops, at which ISO; one sentence an ISO.</param>
/// <param name="CannotDecide">What this kind of metering cannot decide, whatever is shot; null where nothing tells.</param>
/// <param name="Ways">What would decide what is open, or why nothing would; each way once.</param>
public sealed record OnMonday(RetestRecommendation Recommendation, string Sentence, IReadOnlyList<string> Tones, string? CannotDecide, IReadOnlyList<string> Ways);
