using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings;

/// <summary>One thing that only shows when the ISOs of a set are laid side by side.</summary>
internal interface IIsoSeriesCheck
{
    /// <summary>Examines the ISOs in rising order.</summary>
    IEnumerable<Finding> Examine(IReadOnlyList<IsoEvidence> isos);
}
