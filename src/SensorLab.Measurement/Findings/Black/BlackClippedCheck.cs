using SensorLab.Measurement.Codes;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Black;

/// <summary>black-clipped: the codes of dark frames pile up at the lowest one.</summary>
internal sealed class BlackClippedCheck : IIsoCheck
{
    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        (string Name, double Share, int Floor, double LeftDn)[] clipped =
        [
            .. from channel in Enumerable.Range(0, evidence.Channels.Count)
               from dark in evidence.Darks
               let floor = dark.FloorDn(channel)
               where floor is not null
               select (evidence.Channels[channel].Name, DarkFloor.ShareAtLowest(dark.Statistics.Channels[channel].Codes), floor.Value, evidence.BlackDn(channel) - floor.Value),
        ];

        if (clipped.Length > 0)
        {
            string[] names = [.. clipped.Select(c => c.Name).Distinct()];
            double share = clipped.Max(c => c.Share);
            yield return FlawFinding.Warning(
                FindingCode.BlackClipped,
                evidence.Iso,
                clipped.Min(c => c.LeftDn),
                "dn",
                $"At ISO {evidence.Iso} the file cuts dark values off at code {clipped[0].Floor}, {clipped.Min(c => c.LeftDn):F1} DN below black: {share:P1} of them stand there. Compensated: black, read noise and DSNU are fitted to what is left of the distribution, together with the lit exposures; the darkest exposures that are cut off as well are left out.",
                "Nothing to do at the camera; more dark frames narrow the figures.").For(names, evidence.Channels.Count).In(evidence.Darks);
        }
    }
}
