using SensorLab.Frames;
using SensorLab.Measurement.Codes;
using SensorLab.Measurement.Levels;
using SensorLab.Pixels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings;

/// <summary>A level as it was measured and as it is recorded; the channels of both stand in one order.</summary>
internal sealed record EvidenceLevel(LevelStatistics Statistics, LevelRecord Record)
{
    public FrameRole Role => Statistics.Level.Key.Role;

    public bool IsDark => Role == FrameRole.Dark;

    /// <summary>Lit by the light of the bracket.</summary>
    public bool IsLit => Role is FrameRole.Bracket or FrameRole.Metered;

    public IEnumerable<string> Files => Statistics.Level.Frames.Select(f => f.File);

    /// <summary>The code in DN at which a dark level's values are cut off; null where they are not.</summary>
    public int? FloorDn(int channel) => IsDark ? DarkFloor.Of(Statistics.Channels[channel].Codes, Record.Frames) : null;

    /// <summary>Temporal variance in DN² of a single pixel; null for a level of one frame.</summary>
    public double? VarianceOfPixel(int channel) => Record.Channels[channel].TemporalParts?.PixelDn2;

    /// <summary>Variance in DN² of one frame's mean by temporal noise alone; null for a level of one frame.</summary>
    public double? VarianceOfFrameMean(int channel) => new ObservedLevel(Record, Record.Channels[channel]).VarianceOfFrameMeanDn2;
}
