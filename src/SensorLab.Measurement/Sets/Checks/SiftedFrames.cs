using SensorLab.Profiles;

namespace SensorLab.Measurement.Sets.Checks;

/// <summary>What a sieve lets through, and why it kept the rest back.</summary>
internal sealed record SiftedFrames(IReadOnlyList<SetFrame> Kept, IReadOnlyList<Finding> Findings);
