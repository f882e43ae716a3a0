using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Pixels;

/// <summary>Finds frames with the same pixels: a pair of them would have no noise.</summary>
public static class DuplicateFinder
{
    /// <summary>Which of two equal frames stays: the one that the set can least do without.</summary>
    private static readonly FrameRole[] Precedence = [FrameRole.Metered, FrameRole.Dark, FrameRole.Bracket, FrameRole.Light];

    /// <summary>Share of pixels at the highest code from which a frame has no noise left that copies could be told by: the rest are dead lines.</summary>
    private const double UniformShare = 0.9;

    /// <summary>Finds the frames to leave out.</summary>
    /// <param name="levels">All measured levels.</param>
    /// <returns>The frames to leave out, and a finding for each group of equal ones.</returns>
    public static (IReadOnlyList<SetFrame> LeaveOut, IReadOnlyList<Finding> Findings) Find(IEnumerable<LevelStatistics> levels)
    {
        List<SetFrame> leaveOut = [];
        List<Finding> findings = [];
        IEnumerable<IGrouping<ulong, SetFrame>> groups = levels
            .Where(l => !IsUniform(l))
            .SelectMany(l => l.Level.Frames.Select((frame, i) => (Hash: l.PixelHashes[i], Frame: frame)))
            .GroupBy(f => f.Hash, f => f.Frame)
            .Where(g => g.Count() > 1);
        foreach (IGrouping<ulong, SetFrame> group in groups)
        {
            SetFrame[] frames = [.. group.OrderBy(f => Array.IndexOf(Precedence, f.Role!.Value)).ThenBy(f => f.File, StringComparer.Ordinal)];
            leaveOut.AddRange(frames[1..]);
            findings.Add(Duplicate(frames));
        }

        return (leaveOut, [.. findings.OrderBy(f => f.Frames[0], StringComparer.Ordinal)]);
    }

    /// <summary>Frames whose pixels are all clipped, but for dead ones, are equal without being copies.</summary>
    private static bool IsUniform(LevelStatistics level) => level.Channels.All(c => c.Codes.Counts[^1] >= UniformShare * c.Codes.Counts.Sum());

    private static Finding Duplicate(SetFrame[] frames) => new()
    {
        Code = FindingCode.FrameDuplicate,
        Severity = FindingSeverity.Warning,
        Iso = frames[0].Raw.Metadata.Iso,
        Frames = [.. frames.Select(f => f.File)],
        Size = frames.Length - 1,
        SizeUnit = "count",
        Message = string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", frames.Select(f => f.File))} hold the same pixels; only {frames[0].File} is used."),
        Remedy = "Remove the copies; if two exposures were meant, shoot the missing one again.",
    };
}
