using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>
/// mode-mixed: the same ISO is another sensor in another recording mode. depth-mixed: the bits alone differ inside
/// an ISO, which refuses that ISO and not the set.
/// </summary>
/// <remarks>
/// A part of the mode that a frame does not tell agrees with any, but for the user's own name: the column mode is
/// there to tell modes apart, so that frames with a name are set against those without one.
/// </remarks>
internal sealed class RecordingModeCheck : ISetCheck
{
    private const string Nameless = "no name";

    private static readonly (string Noun, Func<SetFrame, string?> Value)[] Parts =
    [
        ("compression", f => f.Raw.Metadata.Mode.Compression),
        ("shutter", f => f.Raw.Metadata.Mode.Shutter),
        ("drive", f => f.Raw.Metadata.Mode.Drive),
        ("noise reduction", f => f.Raw.Metadata.Mode.NoiseReduction),
        ("crop", f => f.Raw.Metadata.Mode.Crop),
    ];

    public IEnumerable<Finding> Examine(CheckedSet set)
    {
        Finding[] depths = [.. set.FramesByIso.Select(DepthFindingOf).OfType<Finding>()];
        HashSet<int> mixedIsos = [.. depths.Select(d => d.Iso!.Value)];
        bool isNamed = set.Frames.Any(f => !string.IsNullOrWhiteSpace(f.Raw.Metadata.Mode.Name));
        (string Noun, Disagreement? Found)[] found =
        [
            .. Parts.Select(p => (p.Noun, Disagreement.Find(set.Frames, p.Value))),
            ("mode", isNamed ? Disagreement.Find(set.Frames, NameOf) : null),
            ("bit depth", Disagreement.Find(set.Frames.Where(f => !mixedIsos.Contains(f.Raw.Metadata.Iso!.Value)), DepthOf)),
        ];
        return [.. depths, .. found.Where(f => f.Found is not null).Select(f => ModeFindingOf(f.Noun, f.Found!))];
    }

    private static Finding ModeFindingOf(string noun, Disagreement found) => SetFindings.Refusal(
        FindingCode.ModeMixed,
        found.Odd,
        $"The frames were recorded in more than one mode: {noun} {found.Listed}.",
        "Make one set for each recording mode: shutter, drive, compression, bits, noise reduction and crop all the same.");

    private static Finding? DepthFindingOf(IGrouping<int, SetFrame> iso)
    {
        if (Disagreement.Find(iso, DepthOf) is not { } found)
        {
            return null;
        }

        string groups = string.Join(
            " and ",
            found.Values.Select(v => string.Create(CultureInfo.InvariantCulture, $"{iso.Count(f => DepthOf(f) == v)} of {v}")));
        return SetFindings.Refusal(
            FindingCode.DepthMixed,
            found.Odd,
            string.Create(CultureInfo.InvariantCulture, $"ISO {iso.Key} has frames of different bit depth: {groups}."),
            "Shoot every frame of an ISO with the drive and shutter that record the same bits.",
            iso.Key);
    }

    // The bits of the file's container (the layout's) say nothing of what was recorded: a packed 12 may lie in 16.
    private static string? DepthOf(SetFrame frame) =>
        frame.Raw.Metadata.Mode.BitDepth is { } bits ? string.Create(CultureInfo.InvariantCulture, $"{bits} bits") : null;

    private static string NameOf(SetFrame frame) =>
        string.IsNullOrWhiteSpace(frame.Raw.Metadata.Mode.Name) ? Nameless : frame.Raw.Metadata.Mode.Name;
}
