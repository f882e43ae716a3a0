using System.Text.Json.Serialization;

namespace SensorLab.Profiles;

/// <summary>
/// The uncertainty of a figure that a second set would respect: the interval that the body's own value lies in, whatever set
/// is shot next under the protocol, with its named parts.
/// </summary>
/// <remarks>JCGM 100:2008, clauses 3.3 and 6.2; degrees of freedom by equation G.2b.</remarks>
public sealed record FigureBudget
{
    /// <summary>Combined standard uncertainty, in the figure's unit.</summary>
    public required double StandardUncertainty { get; init; }

    /// <summary>Lower end of the 95 % interval.</summary>
    public required double Lower95 { get; init; }

    /// <summary>Upper end of the 95 % interval.</summary>
    public required double Upper95 { get; init; }

    /// <summary>Effective degrees of freedom; null where unlimited.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? DegreesOfFreedom { get; init; }

    /// <summary>The parts, sampling first; independent of each other.</summary>
    public required IReadOnlyList<BudgetPart> Parts { get; init => field = value ?? []; }
}
