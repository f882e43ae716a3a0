namespace SensorLab.Retest.Confirm;

/// <summary>One check of a job's frames against a profile.</summary>
/// <param name="Check">Its name: a figure's, or "body", "firmware", "recordingMode", "declaredBlack", "declaredWhite", "codeSteps", "clipCode", "ratioNearClip", "maskedBlack", "maskedNoise".</param>
/// <param name="Iso">The ISO; null for all.</param>
/// <param name="Channel">The channel; null for all.</param>
/// <param name="Expected">What the profile has.</param>
/// <param name="Found">What the frames show.</param>
/// <param name="Verdict">The verdict.</param>
/// <param name="Message">What it means, in a photographer's words.</param>
public sealed record ConfirmCheck(string Check, int? Iso, string? Channel, ShownValue Expected, ShownValue Found, ConfirmVerdict Verdict, string Message);
