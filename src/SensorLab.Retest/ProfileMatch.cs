using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>Whether profiles can be compared at all, and which set a repeat repeats.</summary>
internal static class ProfileMatch
{
    private const string ModelDiffers = "model-differs";
    private const string SensorDiffers = "sensor-differs";
    private const string IsoNotShared = "iso-not-shared";
    private const string FiguresNotShared = "figures-not-shared";
    private const string RepeatForeign = "repeat-foreign";

    /// <summary>Requires that two profiles can be compared.</summary>
    /// <exception cref="ProfilesNotComparableException">They are of another model, sensor size or mosaic, or share no ISO.</exception>
    public static void Require(SensorProfile before, SensorProfile after)
    {
        Finding[] reasons = [.. Reasons(before, after)];
        if (reasons.Length > 0)
        {
            throw new ProfilesNotComparableException(reasons);
        }
    }

    /// <summary>Requires a figure to judge: without one nothing would be equivalent.</summary>
    /// <exception cref="ProfilesNotComparableException">There is none.</exception>
    public static void RequireJudged(bool isAnyJudged)
    {
        if (!isAnyJudged)
        {
            throw new ProfilesNotComparableException([Refusal(
                FiguresNotShared,
                "The profiles share no figure that has a margin.",
                "Shoot the later set by the earlier one's protocol, or set a margin with --margin.")]);
        }
    }

    /// <summary>Whether a repeat is of the earlier set's body and firmware; false where it is of the later one's.</summary>
    /// <exception cref="ProfilesNotComparableException">It is of neither.</exception>
    public static bool RepeatsBefore(SensorProfile before, SensorProfile after, SensorProfile repeat, int number)
    {
        Require(before, repeat);
        if (IsSameState(before.Body, repeat.Body))
        {
            return true;
        }

        return IsSameState(after.Body, repeat.Body) ? false : throw new ProfilesNotComparableException([Refusal(
            RepeatForeign,
            string.Create(CultureInfo.InvariantCulture, $"Repeat {number} is of {NameOf(repeat.Body)}: neither that of the first profile ({NameOf(before.Body)}) nor of the second ({NameOf(after.Body)})."),
            "Name sets of the unchanged body as repeats: the same body with the same firmware as one of the two.")]);
    }

    /// <summary>Whether the profiles name two different bodies.</summary>
    public static bool AreTwoBodies(SensorProfile before, SensorProfile after) => Differ(before.Body.SerialNumber, after.Body.SerialNumber);

    private static bool IsSameState(BodyIdentity first, BodyIdentity second) =>
        !Differ(first.SerialNumber, second.SerialNumber) && !Differ(first.Firmware, second.Firmware);

    private static IEnumerable<Finding> Reasons(SensorProfile before, SensorProfile after)
    {
        if (Differ(before.Body.Maker, after.Body.Maker) || Differ(before.Body.Model, after.Body.Model))
        {
            yield return Refusal(
                ModelDiffers,
                $"The profiles are of two models: {ModelOf(before.Body)} and {ModelOf(after.Body)}.",
                "Compare a body with itself, or with another of its model.");
        }

        if (before.Sensor != after.Sensor)
        {
            yield return Refusal(
                SensorDiffers,
                $"The sensors differ: {SensorOf(before.Sensor)} and {SensorOf(after.Sensor)}.",
                "Shoot both sets without a crop, in one raw format.");
        }

        if (!before.IsoProfiles.Select(p => p.Iso).Intersect(after.IsoProfiles.Select(p => p.Iso)).Any())
        {
            yield return Refusal(
                IsoNotShared,
                $"The profiles share no ISO: {IsosOf(before)} and {IsosOf(after)}.",
                "Shoot the later set at ISOs of the earlier one.");
        }
    }

    private static Finding Refusal(string code, string message, string remedy) =>
        new() { Code = code, Severity = FindingSeverity.Refusal, Message = message, Remedy = remedy };

    /// <summary>What is not known is no evidence of a difference.</summary>
    private static bool Differ(string? first, string? second) => first is not null && second is not null && first != second;

    private static string ModelOf(BodyIdentity body) => string.Join(' ', new[] { body.Maker, body.Model }.OfType<string>());

    private static string NameOf(BodyIdentity body) => $"serial number {body.SerialNumber ?? "unknown"} with firmware {body.Firmware ?? "unknown"}";

    private static string SensorOf(SensorGeometry sensor) =>
        string.Create(CultureInfo.InvariantCulture, $"{sensor.WidthPixels}x{sensor.HeightPixels} {sensor.ColourFilterArray}");

    private static string IsosOf(SensorProfile profile) => "ISO " + string.Join(", ", profile.IsoProfiles.Select(p => p.Iso.ToString(CultureInfo.InvariantCulture)));
}
