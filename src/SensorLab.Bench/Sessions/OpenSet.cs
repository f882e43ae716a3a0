using System.Globalization;
using System.Text.Json.Nodes;
using SensorLab.Bench.Api;
using SensorLab.Live;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Bench.Sessions;

/// <summary>A set that is open, and all that is known of it so far.</summary>
/// <remarks>Work that outlives the set writes here, and no longer into what is shown.</remarks>
/// <param name="live">The watched folder.</param>
/// <param name="planDocument">The plan's document; null for none.</param>
internal sealed class OpenSet(LiveSet live, JsonObject? planDocument)
{
    private HashSet<string> _known = [];

    /// <summary>The watched folder.</summary>
    public LiveSet Live { get; } = live;

    /// <summary>The plan's document; null for none.</summary>
    public JsonObject? PlanDocument { get; } = planDocument;

    /// <summary>The plan; null for none.</summary>
    public ShotPlan? Plan => Live.Card.Plan;

    /// <summary>The latest look; null before the first.</summary>
    public LiveCard? Card { get; private set; }

    /// <summary>What the levels so far give; null before any.</summary>
    public LiveFigures? Figures { get; set; }

    /// <summary>What the finish gave; null before.</summary>
    public FinishedSet? Finished { get; set; }

    /// <summary>Why a finish gave no figures; empty where none was tried since the latest look.</summary>
    public IReadOnlyList<Finding> Refused { get; set; } = [];

    /// <summary>The profile to draw charts from: the finished one, else what the levels so far give.</summary>
    public SensorProfile? Profile => Finished?.Profile ?? Figures?.Profile;

    /// <summary>The lamp's light as the frames tell it, and whether they have times.</summary>
    public (IReadOnlyList<LampReading> Readings, bool HasTimes) Lamp
    {
        get
        {
            LiveFrame[] frames = [.. Card?.Frames ?? []];
            bool hasTimes = frames.Length > 0 && frames.All(f => f.TakenAt is not null);
            return ([.. frames.Index().Where(f => f.Item is { LightEv: not null, Iso: not null }).Select(f => new LampReading(f.Item.Iso!.Value, hasTimes ? (f.Item.TakenAt!.Value - frames[0].TakenAt!.Value).TotalMinutes : f.Index, f.Item.LightEv!.Value))], hasTimes);
        }
    }

    /// <summary>Takes the latest look.</summary>
    /// <param name="card">The look.</param>
    /// <param name="serial">The serial number of a verdict that it gives.</param>
    /// <returns>What is to be said of the frames that are new; null where none is.</returns>
    public Verdict? Take(LiveCard card, int serial)
    {
        Card = card;
        Refused = [];
        LiveFrame[] fresh = [.. card.Frames.Where(f => !_known.Contains(f.File))];
        string? refused = card.Refused.FirstOrDefault(f => !_known.Contains(f));
        _known = [.. card.Frames.Select(f => f.File), .. card.Refused];
        if (refused is not null)
        {
            return new Verdict(serial, false, $"{refused} cannot be read.", "Copy it from the card again; if that does not help, shoot the frame again.");
        }

        LiveFlaw? worst = fresh.SelectMany(f => f.Flaws).OrderByDescending(f => f.ShootAgain).FirstOrDefault();
        return (worst, fresh.Length) switch
        {
            (_, 0) => null,
            ({ } flaw, _) => new Verdict(serial, false, flaw.Message, flaw.Remedy),
            (_, 1) => new Verdict(serial, true, "Good.", null),
            _ => new Verdict(serial, true, string.Create(CultureInfo.InvariantCulture, $"{fresh.Length} frames, all good."), null),
        };
    }
}
