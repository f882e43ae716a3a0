using SensorLab.Measurement.Model;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Figures;

/// <summary>What the level records of an ISO came to.</summary>
/// <param name="Profile">Its profile; null where it is refused.</param>
/// <param name="Findings">What was found on the way.</param>
public sealed record IsoCharacterisation(IsoProfile? Profile, IReadOnlyList<Finding> Findings)
{
    /// <summary>The model that every figure follows from, and that the checks look at; null where the ISO is refused.</summary>
    internal IsoModel? Model { get; init; }

    /// <summary>What the response does beside the model's law; null where the levels do not tell, or the ISO is refused.</summary>
    internal ResponseResidual? Residual { get; init; }
}
