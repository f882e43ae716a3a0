using SensorLab.Profiles;

namespace SensorLab.Retest.Changes;

/// <summary>gain-switch-moved: the second conversion gain was found at other ISOs, and the read noise between them changed.</summary>
internal sealed class GainSwitchMovedCheck : IChangeCheck
{
    public IEnumerable<Change> Find(RetestEvidence evidence)
    {
        int[] common = [.. evidence.Isos.Select(i => i.Before.Iso)];
        int[] before = SwitchesOf(evidence.Before, common);
        int[] after = SwitchesOf(evidence.After, common);
        int[] moved = [.. before.Except(after).Concat(after.Except(before)).Order()];
        if (moved.Length == 0 || !evidence.Changed("readNoiseElectron").Any(f => f.Address.Iso >= moved[0] && f.Address.Iso <= moved[^1]))
        {
            yield break;
        }

        yield return new Change(
            ChangeCode.GainSwitchMoved,
            after.Except(before).Concat(moved).First(),
            $"The second conversion gain began {Names(before)}, and begins {Names(after)}: shadows at the ISOs between are other shadows than before.");
    }

    private static int[] SwitchesOf(SensorProfile profile, int[] common) =>
        [.. profile.Findings.Where(f => f.Code == FindingCode.GainSwitch && f.Iso is { } iso && common.Contains(iso)).Select(f => f.Iso!.Value).Distinct().Order()];

    private static string Names(int[] isos) => isos.Length == 0 ? "nowhere in the ISOs measured" : $"at ISO {string.Join(" and ", isos)}";
}
