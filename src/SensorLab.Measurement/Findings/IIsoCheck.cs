using SensorLab.Profiles;

namespace SensorLab.Measurement.Findings;

/// <summary>One thing that can be wrong with the frames of one ISO, found from their statistics.</summary>
internal interface IIsoCheck
{
    IEnumerable<Finding> Examine(IsoEvidence evidence);
}
