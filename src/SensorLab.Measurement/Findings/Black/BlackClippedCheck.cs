using SensorLab.Measurement.Codes;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>black-clipped: the codes of dark frames pile up at the lowest one.</summary>
internal sealed class BlackClippedCheck : IIsoCheck
{
    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        List<(string Name, double Share, double LeftDn)> clipped = [];
        for (int channel = 0; channel < evidence.Channels.Count; channel++)
        {
            foreach (EvidenceLevel dark in evidence.Darks)
            {
                CodeHistogram codes = dark.Statistics.Channels[channel].Codes;
                if (DarkFloor.Of(codes) is { } floor)
                {
                    clipped.Add((evidence.Channels[channel].Name, DarkFloor.ShareAtLowest(codes), evidence.BlackDn(channel) - floor));
                }
            }
        }

        if (clipped.Count > 0)
        {
            string[] names = [.. clipped.Select(c => c.Name).Distinct()];
            double share = clipped.Max(c => c.Share);
            yield return FlawFinding.Warning(
                FindingCode.BlackClipped,
                evidence.Iso,
                clipped.Min(c => c.LeftDn),
                "dn",
                $"At ISO {evidence.Iso} the file cuts dark values off at black: {share:P1} of them stand at the lowest code. Compensated: black, read noise and DSNU are fitted to what is left of the distribution, together with the lit exposures; the darkest exposures that are cut off as well are left out.",
                "Nothing to do at the camera; more dark frames narrow the figures.").For(names, evidence.Channels.Count).In(evidence.Darks);
        }
    }
}
