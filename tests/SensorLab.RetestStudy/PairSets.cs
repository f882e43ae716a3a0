using SensorLab.Profiles;

namespace SensorLab.RetestStudy;

/// <summary>The sets of one pair, each shot once: what comes before and the repeats are the same whatever happens between the sets.</summary>
internal sealed class PairSets(StudySetting setting, bool isOfPixels, int seed)
{
    private readonly Dictionary<(StudyBody Body, string Firmware, int Seed), SensorProfile> _shot = [];

    public SensorProfile Before => Shoot(StudyBody.Unchanged, "1.1", seed);

    public SensorProfile After(StudyBody body) => Shoot(body, "1.2", seed + 1);

    public IReadOnlyList<SensorProfile> Repeats(int count) => [.. Enumerable.Range(0, count).Select(r => Shoot(StudyBody.Unchanged, "1.1", seed + 2 + r))];

    private SensorProfile Shoot(StudyBody body, string firmware, int own)
    {
        if (!_shot.TryGetValue((body, firmware, own), out SensorProfile? profile))
        {
            profile = isOfPixels ? PixelSet.Shoot(body, firmware, own) : StudySet.Shoot(body, setting, firmware, own);
            _shot.Add((body, firmware, own), profile);
        }

        return profile;
    }
}
