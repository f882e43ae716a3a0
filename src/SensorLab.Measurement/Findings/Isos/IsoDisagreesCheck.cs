using SensorLab.Law;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Isos;

/// <summary>iso-disagrees: the gain of an ISO lies off the line through its neighbours, and no push, pull or shared setting explains it.</summary>
internal sealed class IsoDisagreesCheck : IIsoSeriesCheck
{
    /// <summary>Bodies' own steps of gain are off by a few percent.</summary>
    private const double SmallestRelative = 0.04;

    public IEnumerable<Finding> Examine(IReadOnlyList<IsoEvidence> isos)
    {
        for (int i = 1; i < isos.Count - 1; i++)
        {
            IsoEvidence[] three = [isos[i - 1], isos[i], isos[i + 1]];
            bool explained = three.Any(e => e.CodeSteps.Value.FactorsDn.Min() > 1)
                || GainSharedCheck.AreShared(three[0], three[1]) || GainSharedCheck.AreShared(three[1], three[2]);
            Estimate?[] gains = [.. three.Select(IsoLaw.GainOf)];
            if (explained || gains.Any(g => g is null))
            {
                continue;
            }

            double place = Math.Log((double)three[1].Iso / three[0].Iso) / Math.Log((double)three[2].Iso / three[0].Iso);
            double[] parts = [1 - place, -1, place];
            double off = -parts.Zip(gains).Sum(p => p.First * Math.Log(p.Second!.Value.Value));
            double uncertainty = Math.Sqrt(parts.Zip(gains).Sum(p => Math.Pow(p.First * p.Second!.Value.StandardUncertainty / p.Second.Value.Value, 2)));
            if (Math.Abs(off) > SmallestRelative && Math.Abs(off) > Significance.Deviations * uncertainty)
            {
                yield return FlawFinding.Warning(
                    FindingCode.IsoDisagrees,
                    three[1].Iso,
                    Math.Abs(Math.Exp(off) - 1),
                    "relative",
                    $"The gain of ISO {three[1].Iso} lies {Math.Abs(Math.Exp(off) - 1):P1} off the line through ISO {three[0].Iso} and ISO {three[2].Iso}: one of the three is not what its files say, or was measured under something that changed.",
                    "Shoot the three ISOs again in one go; if it stays, the body does it so.");
            }
        }
    }
}
