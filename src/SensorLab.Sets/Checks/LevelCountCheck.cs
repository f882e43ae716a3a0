using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>levels-too-few: fewer than five exposures of two frames or more; with none, the ISO is refused.</summary>
/// <remarks>Metered frames form a level too, all readings one: they show one signal. One at the exposure of a bracket level is not a further exposure.</remarks>
internal sealed class LevelCountCheck : ISetCheck
{
    private const int Enough = 5;

    public IEnumerable<Finding> Examine(CheckedSet set) => set.LevelsByIso.Select(FindingOf).OfType<Finding>();

    private static Finding? FindingOf(IGrouping<int, Level> iso)
    {
        Level[] paired = [.. iso.Where(l => CheckedSet.IsLit(l) && l.Frames.Count > 1)];
        Level[] bracket = [.. paired.Where(l => l.Key.Role != FrameRole.Metered)];
        Level[] metered = [.. paired.Where(l => l.Key.Role == FrameRole.Metered)];
        int count = ExposuresOf(bracket) + (metered.Length > 0 && !metered.Any(m => bracket.Any(b => IsSame(m.Key, b.Key))) ? 1 : 0);
        string at = $"ISO {iso.Key.ToString(CultureInfo.InvariantCulture)}";
        const string Remedy = "Shoot two frames or more at each of at least five exposures, from deep shadow to clipping.";
        Finding? finding = count switch
        {
            >= Enough => null,
            0 => SetFindings.Refusal(FindingCode.LevelsTooFew, [], $"{at} has no exposure with two frames or more: noise cannot be measured there.", Remedy, iso.Key),
            _ => SetFindings.Warning(
                FindingCode.LevelsTooFew,
                [],
                $"{at} has only {SetFindings.Count(count, "exposure")} with two frames or more: gain, read noise and pattern rest on so few, and nothing tells whether noise follows the light as it should.",
                Remedy,
                iso.Key),
        };
        return finding is null ? null : finding with { Size = count, SizeUnit = "count" };
    }

    private static bool IsSame(LevelKey a, LevelKey b) =>
        a.LightStep == b.LightStep && LevelGrouping.IsSameExposure(a.ExposureSeconds, b.ExposureSeconds);

    private static int ExposuresOf(IEnumerable<Level> levels)
    {
        int count = 0;
        foreach (IGrouping<string, Level> step in levels.GroupBy(l => l.Key.LightStep ?? string.Empty))
        {
            double group = 0;
            foreach (double exposure in step.Select(l => l.Key.ExposureSeconds).Order())
            {
                if (!LevelGrouping.IsSameExposure(group, exposure))
                {
                    group = exposure;
                    count++;
                }
            }
        }

        return count;
    }
}
