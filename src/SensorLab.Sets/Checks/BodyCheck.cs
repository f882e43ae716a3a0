using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>body-mixed: a profile is one body's. Maker, model or serial number that differ are another body.</summary>
internal sealed class BodyCheck : ISetCheck
{
    private static readonly (string Noun, Func<SetFrame, string?> Value)[] Marks =
    [
        ("makers", f => f.Raw.Metadata.Maker),
        ("models", f => f.Raw.Metadata.Model),
        ("serial numbers", f => f.Raw.Metadata.SerialNumber),
    ];

    public IEnumerable<Finding> Examine(CheckedSet set)
    {
        (string Noun, Disagreement? Found)[] all = [.. Marks.Select(m => (m.Noun, Disagreement.Find(set.Frames, m.Value)))];
        (string Noun, Disagreement? Found)[] found = [.. all.Where(a => a.Found is not null)];
        if (found.Length == 0)
        {
            yield break;
        }

        string seen = string.Join("; ", found.Select(f => $"{f.Noun} {f.Found!.Listed}"));
        yield return SetFindings.Refusal(
            FindingCode.BodyMixed,
            found.SelectMany(f => f.Found!.Odd).Distinct(),
            $"The frames come from more than one body: {seen}.",
            "Keep one body's frames in a set, and characterise each body on its own.");
    }
}
