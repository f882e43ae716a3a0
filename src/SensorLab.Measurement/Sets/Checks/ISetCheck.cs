using SensorLab.Profiles;

namespace SensorLab.Measurement.Sets.Checks;

/// <summary>One thing that can be wrong with a set of frames, found from metadata.</summary>
internal interface ISetCheck
{
    IEnumerable<Finding> Examine(CheckedSet set);
}
