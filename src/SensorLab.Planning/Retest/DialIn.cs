using SensorLab.Profiles;

namespace SensorLab.Planning.Retest;

/// <summary>What to dial in on the second of two bodies so that both keep the same room above middle grey.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="CompensationEv">Exposure compensation on the second body: positive for more exposure. The meters' own uncertainty is not in it.</param>
/// <param name="NearestThirdEv">The nearest third of a stop, which is what most bodies offer.</param>
public sealed record DialIn(int Iso, Figure CompensationEv, double NearestThirdEv)
{
    private const double StepsAnEv = 3;

    /// <summary>From the room above grey of both bodies: the one with more room is brought up by the difference.</summary>
    internal static IReadOnlyList<DialIn> Of(IEnumerable<ComparedFigure> figures) =>
    [
        .. figures
            .Where(f => f.Address is { Name: "aboveEv", Channel: null } && f.Unit == MarginUnit.Ev && f.Difference?.Value is not null)
            .Select(f => new DialIn(f.Address.Iso, f.Difference!, Math.Round(f.Difference!.Value!.Value * StepsAnEv, MidpointRounding.AwayFromZero) / StepsAnEv)),
    ];
}
