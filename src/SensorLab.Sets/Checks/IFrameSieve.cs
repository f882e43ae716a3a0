using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>Leaves out the frames that cannot serve, with a finding for each reason.</summary>
internal interface IFrameSieve
{
    SiftedFrames Sift(IReadOnlyList<SetFrame> frames);
}

/// <summary>What a sieve lets through, and why it kept the rest back.</summary>
internal sealed record SiftedFrames(IReadOnlyList<SetFrame> Kept, IReadOnlyList<Finding> Findings);
