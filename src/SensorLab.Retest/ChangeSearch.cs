using SensorLab.Retest.Changes;

namespace SensorLab.Retest;

/// <summary>Looks for what firmware is known to change.</summary>
internal static class ChangeSearch
{
    private static readonly IChangeCheck[] Checks =
    [
        new RawFormatChangedCheck(), new FilterChangedCheck(), new BlackMovedCheck(), new IsoShiftedCheck(),
        new GainSwitchMovedCheck(), new WhiteDeclaredChangedCheck(), new PreviewChangedCheck(),
    ];

    public static IReadOnlyList<Change> Find(RetestEvidence evidence) => [.. Checks.SelectMany(check => check.Find(evidence))];
}
