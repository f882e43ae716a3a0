using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>frame-incomplete: ISO or exposure time unknown, so that a frame belongs to no level.</summary>
internal sealed class ExposureSieve : IFrameSieve
{
    public SiftedFrames Sift(IReadOnlyList<SetFrame> frames)
    {
        SetFrame[] incomplete = [.. frames.Where(f => !HasIso(f) || !HasExposure(f))];
        if (incomplete.Length == 0)
        {
            return new SiftedFrames(frames, []);
        }

        string lacking = (incomplete.All(HasIso), incomplete.All(HasExposure)) switch
        {
            (true, _) => "the exposure time",
            (_, true) => "the ISO",
            _ => "ISO or exposure time",
        };
        Finding finding = SetFindings.Warning(
            FindingCode.FrameIncomplete,
            incomplete,
            $"{SetFindings.Count(incomplete.Length)} without {lacking}; left out.",
            "Give iso and exposureSeconds for these files in frames.csv.");
        return new SiftedFrames([.. frames.Except(incomplete)], [finding]);
    }

    private static bool HasIso(SetFrame frame) => frame.Raw.Metadata.Iso is >= 1;

    private static bool HasExposure(SetFrame frame) =>
        frame.Raw.Metadata is { ExposureSeconds: { } seconds } && seconds > 0 && double.IsFinite(seconds);
}
