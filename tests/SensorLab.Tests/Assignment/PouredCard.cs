using SensorLab.Assignment;
using SensorLab.Cli;
using SensorLab.Frames;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Cards;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;
using SensorLab.Tests.Plans;

namespace SensorLab.Tests.Assignment;

/// <summary>A protocol shot by a simulated body and poured onto a card.</summary>
internal sealed class PouredCard : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private PouredCard(ShotPlan plan, IReadOnlyList<CardFrame> frames, CardHabits habits)
    {
        Plan = plan;
        Frames = frames;
        CardWriter.Write(frames, Folder, habits);
    }

    public ShotPlan Plan { get; }

    public IReadOnlyList<CardFrame> Frames { get; }

    public string Folder => _folder.File("card");

    /// <summary>Shoots and pours.</summary>
    /// <param name="protocol">The protocol's name.</param>
    /// <param name="body">The body.</param>
    /// <param name="habits">What befalls the set.</param>
    /// <param name="hasOthers">Whether a colleague's body has shot on the same card.</param>
    /// <param name="mostIsos">ISOs at most.</param>
    /// <param name="befall">What else happens to the card's frames, in the order in which they were taken; null for nothing.</param>
    public static PouredCard Of(string protocol, PlannedBody body, CardHabits habits, bool hasOthers = false, int mostIsos = 2, Func<IReadOnlyList<CardFrame>, IReadOnlyList<CardFrame>>? befall = null)
    {
        ShotPlan plan = ShotPlanner.Plan(new PlanRequest
        {
            Protocol = ProtocolLibrary.Find(protocol)!,
            Isos = [.. body.Isos.Take(mostIsos)],
            Shutter = body.Shutter,
            Mains = new MainsLight(50),
        });
        IReadOnlyList<ScriptedShot> script = RehearsedPlan.Of(plan, []);
        VirtualBody own = body.Body with { Look = new PreviewLook(), WidthPixels = 144, HeightPixels = 96 };
        RehearsalPlan set = Rehearsed(own, script, habits.Seed);
        RehearsalPlan? others = hasOthers
            ? Rehearsed(own with { SerialNumber = "30992", PatternSeed = 99 }, [.. script.Where((_, i) => i % 4 == 0)], habits.Seed + 1000)
            : null;
        IReadOnlyList<CardFrame> frames = CardPour.Pour(set, habits, others);
        return new PouredCard(plan, befall is null ? frames : befall(frames), habits);
    }

    /// <summary>Where the plan metered, as a user would type it.</summary>
    public IReadOnlyList<MeteredSetting> Metered => [.. Plan.Steps.Where(s => s.Role is "metered" or "light").Select(s => new MeteredSetting(s.ExposureSeconds, s.Iso)).Distinct()];

    /// <summary>Assigns the card.</summary>
    public Task<CardAssignment> AssignAsync(bool hasPlan) =>
        CardAssignment.RunAsync(Folder, new CardReading { Plan = hasPlan ? Plan : null, Metered = hasPlan ? [] : Metered }, 2, null, TestContext.Current.CancellationToken);

    /// <summary>How well an assignment met the truth.</summary>
    /// <param name="assignment">The assignment.</param>
    /// <param name="hasPlan">Whether light steps, lights and looks have their planned names; else only what belongs together counts.</param>
    public Score Judge(FrameAssignment assignment, bool hasPlan)
    {
        Dictionary<string, AssignedFrame> assigned = assignment.Frames.ToDictionary(f => f.File);
        (CardFrame Card, AssignedFrame Frame)[] pairs = [.. Frames.Select(f => (f, assigned[f.File]))];
        var names = pairs
            .Where(p => p.Card.BelongsToSet)
            .GroupBy(p => (p.Card.Shot.Raw.Metadata.Iso, True(p.Card, "lightStep"), True(p.Card, "light")))
            .ToDictionary(g => g.Key, g => g.Select(p => (p.Frame.Use.LightStep, p.Frame.Use.Light)).GroupBy(n => n).MaxBy(n => n.Count())!.Key);
        int right = 0;
        var wrong = new List<string>();
        foreach ((CardFrame card, AssignedFrame frame) in pairs)
        {
            (string? step, string? light) = hasPlan || !card.BelongsToSet ? (True(card, "lightStep"), True(card, "light")) : names[(card.Shot.Raw.Metadata.Iso, True(card, "lightStep"), True(card, "light"))];
            FrameUse truth = card.BelongsToSet ? new FrameUse(card.Shot.Role, step, light, hasPlan ? True(card, "look") : null) : FrameUse.None;
            // Without a plan a plain, lit frame of the field is a frame of the bracket like any other.
            bool serves = !hasPlan && card.IsTestShot && frame.Use.Role == FrameRole.Bracket;
            if (frame.IsSure && (frame.Use == truth || serves))
            {
                right++;
            }
            else if (frame.IsSure)
            {
                wrong.Add($"{frame.File} ISO {frame.Iso} {card.Shot.Raw.Metadata.ExposureSeconds:R} s light {card.Shot.Exposure.LightElectron:R}: {frame.Use} for {truth}: {frame.Why}");
            }
        }

        return new Score(pairs.Length, right, wrong);
    }

    public void Dispose() => _folder.Dispose();

    private static RehearsalPlan Rehearsed(VirtualBody body, IReadOnlyList<ScriptedShot> script, ulong seed) =>
        RehearsalPlan.Of(new RehearsalOptions { Body = body, Script = script, Seed = seed });

    private static string? True(CardFrame frame, string column) => frame.BelongsToSet ? frame.Shot.Columns.GetValueOrDefault(column) : null;

    /// <summary>Frames in all, those right, and those wrong without a question.</summary>
    public sealed record Score(int Frames, int Right, IReadOnlyList<string> Wrong);
}
