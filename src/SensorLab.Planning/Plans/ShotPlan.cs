using SensorLab.Planning.Protocols;

namespace SensorLab.Planning.Plans;

/// <summary>A shot list in shooting order, with what it takes, what it cannot reach, and what it should give.</summary>
public sealed record ShotPlan
{
    /// <summary>The protocol's name.</summary>
    public required string Protocol { get; init; }

    /// <summary>The protocol's version.</summary>
    public required int ProtocolVersion { get; init; }

    /// <summary>The protocol's name as people say it.</summary>
    public required string Title { get; init; }

    /// <summary>What the protocol is for.</summary>
    public required string Purpose { get; init; }

    /// <summary>The ISOs, in shooting order.</summary>
    public required IReadOnlyList<int> Isos { get; init; }

    /// <summary>The mains' frequency in Hz; null for light that does not pulse.</summary>
    public int? MainsHz { get; init; }

    /// <summary>What it takes.</summary>
    public required PlanSummary Summary { get; init; }

    /// <summary>How often the list is shot, and when.</summary>
    public required IReadOnlyList<ProtocolSet> Sets { get; init; }

    /// <summary>What to lay out before: filters with their density among it.</summary>
    public IReadOnlyList<string> Kit { get; init => field = value ?? []; } = [];

    /// <summary>What to do before the first frame.</summary>
    public required IReadOnlyList<string> Preparations { get; init; }

    /// <summary>What can hurt, and who decides.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>What the plan assumes.</summary>
    public required IReadOnlyList<string> Assumes { get; init; }

    /// <summary>What it cannot reach or avoid.</summary>
    public required IReadOnlyList<PlanNotice> Notices { get; init; }

    /// <summary>What it should give, an ISO each.</summary>
    public required IReadOnlyList<PlanPrediction> Prediction { get; init; }

    /// <summary>Whether no body was named: the prediction tells then how sure the figures will be, and no figure.</summary>
    public bool IsForTypicalBody { get; init; }

    /// <summary>The frames.</summary>
    public required IReadOnlyList<PlanStep> Steps { get; init; }
}
