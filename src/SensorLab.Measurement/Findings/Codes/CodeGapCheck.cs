using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings.Codes;

/// <summary>gain-digital and channel-scaled: gaps between the codes of all channels, or of some.</summary>
internal sealed class CodeGapCheck : IIsoCheck
{
    /// <summary>Factors that differ by less are one factor: less is a missing code here and there.</summary>
    private const double SameFactor = 1.002;

    public IEnumerable<Finding> Examine(IsoEvidence evidence)
    {
        CodeSteps steps = evidence.CodeSteps.Value;
        if (steps.Pattern != StepPattern.Even || evidence.DeclaresCurve)
        {
            yield break;
        }

        double[] factors = steps.FactorsDn;
        double common = factors.Min();
        string[] scaled = [.. evidence.Channels.Where((_, c) => factors[c] > SameFactor * common).Select(c => c.Name)];
        if (common > 1)
        {
            yield return FlawFinding.Note(
                FindingCode.GainDigital,
                evidence.Iso,
                common,
                "relative",
                $"ISO {evidence.Iso} is a digital push: its codes lie {common:F2} DN apart on the mean, those of a lower ISO were multiplied. The wider step is part of the noise figures.",
                "Shoot the lower ISO and push in the converter: the same picture with more highlights.");
        }

        if (scaled.Length > 0)
        {
            double factor = factors.Max() / common;
            string each = FlawFinding.Listed([.. evidence.Channels.Select((c, i) => (c.Name, Factor: factors[i] / common)).Where(c => scaled.Contains(c.Name)).Select(c => string.Create(CultureInfo.InvariantCulture, $"{c.Name} by {c.Factor:F3}"))]);
            yield return FlawFinding.Note(
                FindingCode.ChannelScaled,
                evidence.Iso,
                factor - 1,
                "relative",
                $"At ISO {evidence.Iso} the codes of {FlawFinding.Listed(scaled)} have gaps that the others have not: the maker multiplied {each}. Gain, black and saturation of the channel are those of the scaled codes.",
                "Nothing to do.").For(scaled, evidence.Channels.Count);
        }
    }
}
