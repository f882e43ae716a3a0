using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Publishing.Bundles;

/// <summary>Numbers in place of the names of frames: <c>bracket/0012</c>, counted in each role.</summary>
internal sealed class FrameNumbers
{
    private const string WithoutRole = "frame";

    private readonly Dictionary<string, string> _numbers = new(StringComparer.Ordinal);

    private readonly Dictionary<string, int> _counts = new(StringComparer.Ordinal);

    /// <summary>Every name and the number in its place.</summary>
    public IReadOnlyDictionary<string, string> All => _numbers;

    /// <summary>Numbers the frames of a profile, in its order; then what only findings name.</summary>
    /// <param name="profile">The profile.</param>
    public static FrameNumbers Of(SensorProfile profile)
    {
        var numbers = new FrameNumbers();
        foreach (FrameRecord frame in profile.Frames)
        {
            numbers.Add(frame.File, frame.Role ?? WithoutRole);
        }

        foreach (string file in profile.Findings.SelectMany(f => f.Frames))
        {
            numbers.Add(file, WithoutRole);
        }

        return numbers;
    }

    /// <summary>The number of a frame.</summary>
    /// <param name="file">Its name, as the profile has it.</param>
    public string NumberOf(string file) => _numbers[file];

    private void Add(string file, string role)
    {
        if (!_numbers.ContainsKey(file))
        {
            int count = _counts.GetValueOrDefault(role) + 1;
            _counts[role] = count;
            _numbers.Add(file, string.Create(CultureInfo.InvariantCulture, $"{role}/{count:0000}"));
        }
    }
}
