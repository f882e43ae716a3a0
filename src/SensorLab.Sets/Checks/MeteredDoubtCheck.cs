using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>metered-doubtful, as far as metadata tell: another metering than spot, or a compensation dialled in.</summary>
/// <remarks>Frames that do not say how they were metered are not doubted; by saturation, metered frames define nothing.</remarks>
internal sealed class MeteredDoubtCheck : ISetCheck
{
    /// <summary>Compensations below this many EV are zero: the finest dial has steps of a sixth.</summary>
    private const double ZeroEv = 0.05;

    public IEnumerable<Finding> Examine(CheckedSet set) =>
        set.Grey == GreyMethod.Saturation ? [] : set.FramesByIso.SelectMany(FindingsOf);

    private static IEnumerable<Finding> FindingsOf(IGrouping<int, SetFrame> iso)
    {
        SetFrame[] metered = [.. iso.Where(f => f.Role == FrameRole.Metered)];
        string at = $"ISO {iso.Key.ToString(CultureInfo.InvariantCulture)}";
        SetFrame[] otherwise = [.. metered.Where(f => f.Raw.Metadata.Metering is not (MeteringMode.Spot or MeteringMode.Unknown))];
        if (otherwise.Length > 0)
        {
            string modes = string.Join(", ", otherwise.Select(f => Describe(f.Raw.Metadata.Metering)).Distinct().Order(StringComparer.Ordinal));
            yield return SetFindings.Warning(
                FindingCode.MeteredDoubtful,
                otherwise,
                $"{SetFindings.Count(otherwise.Length, "metered frame")} at {at} had {modes} metering, not spot: middle grey may lie elsewhere.",
                "Set the camera to spot metering and shoot the metered frames again.",
                iso.Key);
        }

        SetFrame[] compensated = [.. metered.Where(f => Math.Abs(f.Raw.Metadata.ExposureCompensationEv ?? 0) > ZeroEv)];
        if (compensated.Length > 0)
        {
            double largest = compensated.MaxBy(f => Math.Abs(f.Raw.Metadata.ExposureCompensationEv!.Value))!.Raw.Metadata.ExposureCompensationEv!.Value;
            yield return SetFindings.Warning(
                FindingCode.MeteredDoubtful,
                compensated,
                string.Create(CultureInfo.InvariantCulture, $"{SetFindings.Count(compensated.Length, "metered frame")} at {at} had an exposure compensation of {largest:+0.##;-0.##} EV: middle grey is off by as much. Not corrected."),
                "Set the compensation to zero and shoot the metered frames again.",
                iso.Key) with { Size = Math.Abs(largest), SizeUnit = "ev" };
        }
    }

    private static string Describe(MeteringMode mode) => mode switch
    {
        MeteringMode.Average => "average",
        MeteringMode.CentreWeighted => "centre-weighted",
        MeteringMode.MultiSpot => "multi-spot",
        MeteringMode.Pattern => "pattern",
        MeteringMode.Partial => "partial",
        MeteringMode.Spot => "spot",
        _ => "unknown",
    };
}
