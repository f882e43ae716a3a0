using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Retest.Changes;

/// <summary>raw-format-changed: bits, loss, crop, the maker's curve or the spacing of codes differ. Lossless against uncompressed is the same data.</summary>
internal sealed class RawFormatChangedCheck : IChangeCheck
{
    /// <summary>Share of a step by which a mean spacing that is no whole number may differ between sets: it hangs on the codes that were met.</summary>
    private const double SameStep = 0.01;

    /// <summary>A maker's curve at least doubles the step on its way up; a mean spacing that is no whole number hangs on the codes met.</summary>
    private const double WiderStep = 1.5;

    public IEnumerable<Change> Find(RetestEvidence evidence)
    {
        RecordedMode before = evidence.Before.RecordingMode;
        RecordedMode after = evidence.After.RecordingMode;
        string[] ways =
        [
            .. before.BitDepth is { } from && after.BitDepth is { } to && from != to
                ? [string.Create(CultureInfo.InvariantCulture, $"{from} bits before, {to} after")] : Array.Empty<string>(),
            .. (before.Compression == "lossy") != (after.Compression == "lossy") ? [after.Compression == "lossy" ? "lossy after, not before" : "lossy before, not after"] : Array.Empty<string>(),
            .. before.Crop is not null && after.Crop is not null && before.Crop != after.Crop ? [$"crop {before.Crop} before, {after.Crop} after"] : Array.Empty<string>(),
            .. IsCompanded(evidence.Before) != IsCompanded(evidence.After)
                ? [IsCompanded(evidence.After) ? "codes grow coarser with the signal after, not before" : "codes grew coarser with the signal before, not after"] : Array.Empty<string>(),
        ];
        if (ways.Length > 0)
        {
            yield return new Change(ChangeCode.RawFormatChanged, null, $"The raw data are recorded in another form: {string.Join("; ", ways)}. Look into the menu first: updates reset it.");
        }

        foreach ((IsoProfile b, IsoProfile a) in evidence.Isos)
        {
            double was = StepOf(b);
            double isNow = StepOf(a);
            if (Math.Abs(isNow - was) > SameStep * was && before.BitDepth == after.BitDepth)
            {
                yield return new Change(ChangeCode.RawFormatChanged, b.Iso, string.Create(
                    CultureInfo.InvariantCulture,
                    $"ISO {b.Iso}: codes came in steps of {was:0.##} DN, and come in steps of {isNow:0.##}: fewer bits, or a push in the body."));
            }
        }
    }

    /// <summary>Whether codes lie farther apart in bright levels than in the dark ones, by their codes themselves.</summary>
    private static bool IsCompanded(SensorProfile profile) => profile.IsoProfiles.Any(iso =>
        iso.Levels.Where(l => RoleName.IsLit(l.Role)).SelectMany(l => l.Channels).Select(c => c.CodeStepDn).DefaultIfEmpty(1).Max() >= WiderStep * StepOf(iso));

    private static double StepOf(IsoProfile iso) => iso.Levels.Where(l => l.Role == RoleName.Dark).SelectMany(l => l.Channels).Select(c => c.CodeStepDn).DefaultIfEmpty(1).Max();
}
