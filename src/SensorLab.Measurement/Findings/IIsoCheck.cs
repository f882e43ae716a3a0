using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings;

/// <summary>One thing that can be wrong with the frames of one ISO, found from their statistics.</summary>
internal interface IIsoCheck
{
    IEnumerable<Finding> Examine(IsoEvidence evidence);
}

/// <summary>One thing that only shows when the ISOs of a set are laid side by side.</summary>
internal interface IIsoSeriesCheck
{
    /// <summary>Examines the ISOs in rising order.</summary>
    IEnumerable<Finding> Examine(IReadOnlyList<IsoEvidence> isos);
}
