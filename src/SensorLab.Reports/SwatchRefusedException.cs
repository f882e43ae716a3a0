using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports;

/// <summary>A sensor profile whose noise at an ISO was not measured: there is nothing to draw a swatch from.</summary>
public sealed class SwatchRefusedException : Exception
{
    /// <summary>The code of the finding that says so.</summary>
    public const string Code = "noise-unmeasured";

    private SwatchRefusedException(Finding finding)
        : base(finding.Message) => Findings = [finding];

    /// <summary>What is missing, with its remedy.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    internal static SwatchRefusedException Of(int iso) => new(new Finding
    {
        Code = Code,
        Severity = FindingSeverity.Refusal,
        Iso = iso,
        Message = string.Create(CultureInfo.InvariantCulture, $"At ISO {iso} the profile holds no SNR curve, gain or middle grey: how noisy a tone is cannot be drawn."),
        Remedy = "See the profile's other findings for what was missing, and shoot that ISO again.",
    });
}
