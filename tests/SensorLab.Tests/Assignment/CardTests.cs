using System.Globalization;
using SensorLab.Assignment;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;
using SensorLab.Simulation.Cards;
using SensorLab.TestData;
using SensorLab.Tests.Plans;

namespace SensorLab.Tests.Assignment;

/// <summary>Cards as they come out of the camera: every frame's use is told, or asked, never guessed.</summary>
public sealed class CardTests(ITestOutputHelper output)
{
    /// <summary>The goal with a plan.</summary>
    private const double RightByPlan = 0.995;

    /// <summary>The goal without one, the metered exposures known.</summary>
    private const double RightBySettings = 0.97;

    private static readonly CardHabits[] Cards =
    [
        new() { SkippedShare = 0.05, ReshotShare = 0.03, HolidayPictures = 30, WritesJpegs = true },
        new() { IsOneFolder = false, FramesPerFolder = 99, FirstNumber = 9950, HolidayPictures = 6, PauseAfterShare = 0.4, TestShots = 2 },
        new() { IsOneFolder = false, SkippedShare = 0.05, HolidayPictures = 12 },
    ];

    public static TheoryData<string, int, int> Quick => new()
    {
        { "evening", 0, 0 },
        { "lights", 1, 1 },
        { "long-exposures", 2, 2 },
        { "looks", 3, 0 },
    };

    [Theory]
    [MemberData(nameof(Quick))]
    public async Task Assign_Card_TellsEveryFrameOrAsks(string protocol, int body, int card)
    {
        using PouredCard poured = Pour(protocol, body, card, 1);

        foreach (bool hasPlan in new[] { true, false })
        {
            PouredCard.Score score = poured.Judge((await poured.AssignAsync(hasPlan)).Assignment, hasPlan);

            Assert.True(score.Wrong.Count == 0, string.Join('\n', score.Wrong));
            Assert.True(score.Right >= 0.95 * score.Frames, string.Create(CultureInfo.InvariantCulture, $"{score.Right} of {score.Frames}"));
        }
    }

    /// <summary>Pooled over protocols, bodies and cards: a single frame in doubt may be more than half a percent of a small card.</summary>
    [Fact]
    [Trait("Category", "Study")]
    public async Task Assign_EveryProtocolBodyAndCard_ReachesTheGoals()
    {
        var scores = new List<(bool HasPlan, int Card, string Protocol, PouredCard.Score Score)>();
        foreach (string protocol in ProtocolLibrary.Names)
        {
            for (int body = 0; body < PlannedBody.All.Count; body++)
            {
                for (int card = 0; card < Cards.Length; card++)
                {
                    using PouredCard poured = Pour(protocol, body, card, (ulong)(1 + card + (10 * body)), mostIsos: 3);
                    foreach (bool hasPlan in new[] { true, false })
                    {
                        PouredCard.Score score = poured.Judge((await poured.AssignAsync(hasPlan)).Assignment, hasPlan);
                        scores.Add((hasPlan, card, protocol, score));
                        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{protocol}, {PlannedBody.All[body].Name}, card {card}, {(hasPlan ? "plan" : "metered")}: {score.Right} of {score.Frames}, {score.Wrong.Count} wrong"));
                        foreach (string wrong in score.Wrong)
                        {
                            output.WriteLine("  " + wrong);
                        }
                    }
                }
            }
        }

        string table = Table(scores);
        output.WriteLine(table);
        if (Environment.GetEnvironmentVariable("SENSORLAB_WRITE_RESULTS") is not null)
        {
            StudyResults.Write("tests/SensorLab.Tests/Assignment", "Cards", "bash tests/studies.sh cards", table);
        }

        Assert.All(scores, s => Assert.Empty(s.Score.Wrong));
        Assert.True(ShareOf(scores.Where(s => s.HasPlan).Select(s => s.Score)) >= RightByPlan);
        Assert.True(ShareOf(scores.Where(s => !s.HasPlan).Select(s => s.Score)) >= RightBySettings);
    }

    private static double ShareOf(IEnumerable<PouredCard.Score> scores)
    {
        PouredCard.Score[] all = [.. scores];
        return (double)all.Sum(s => s.Right) / all.Sum(s => s.Frames);
    }

    private static string Table(IReadOnlyList<(bool HasPlan, int Card, string Protocol, PouredCard.Score Score)> scores)
    {
        var text = new System.Text.StringBuilder();
        text.AppendLine("Every protocol shot by four simulated bodies (three ISOs, 144 × 96 photosites), poured onto three cards: 0, one folder with JPEG files beside, 5 % skipped, 3 % shot twice, 30 everyday pictures; 1, folders of 99 frames, numbers that wrap, a day's pause, 6 pictures, 2 test shots; 2, another body's frames behind, 5 % skipped, 12 pictures.");
        text.AppendLine();
        text.AppendLine("| told by | protocol | frames | right (%) | asked | wrong without a question |");
        text.AppendLine("| --- | --- | ---: | ---: | ---: | ---: |");
        foreach (var group in scores.GroupBy(s => (s.HasPlan, s.Protocol)).Concat(scores.GroupBy(s => (s.HasPlan, Protocol: "all"))).OrderByDescending(g => g.Key.HasPlan))
        {
            int frames = group.Sum(s => s.Score.Frames);
            int right = group.Sum(s => s.Score.Right);
            int wrong = group.Sum(s => s.Score.Wrong.Count);
            text.AppendLine(CultureInfo.InvariantCulture, $"| {(group.Key.HasPlan ? "plan" : "metered exposures")} | {group.Key.Protocol} | {frames} | {100.0 * right / frames:F2} | {frames - right - wrong} | {wrong} |");
        }

        return text.ToString();
    }

    [Fact]
    public async Task Assign_Card_CharacterisesAsTheSortedSet()
    {
        using PouredCard poured = Pour("evening", 0, 1, 5);
        CardAssignment assigned = await poured.AssignAsync(hasPlan: true);
        Assert.Empty(assigned.Assignment.Questions);
        await File.WriteAllBytesAsync(Path.Combine(poured.Folder, "frames.csv"), assigned.Table.ToArray(), TestContext.Current.CancellationToken);
        string sorted = poured.Folder + "-sorted";
        Directory.CreateDirectory(sorted);
        CardWriter.WriteSorted(poured.Frames, sorted);

        SensorProfile own = await Characterisation.RunAsync(poured.Folder, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);
        SensorProfile other = await Characterisation.RunAsync(sorted, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken);

        Assert.True(assigned.CanBeCharacterised);
        Assert.Equal(Figures(other), Figures(own));
    }

    // Files are named otherwise; every figure is the same to the last digit.
    private static string Figures(SensorProfile profile)
    {
        using var stream = new MemoryStream();
        SensorProfileWriter.Write(profile with { Frames = [], Findings = [.. profile.Findings.Select(f => f with { Frames = [], Message = string.Empty })] }, stream);
        return System.Text.Encoding.UTF8.GetString(stream.ToArray());
    }

    private static PouredCard Pour(string protocol, int body, int card, ulong seed, int mostIsos = 2) =>
        PouredCard.Of(protocol, PlannedBody.All[body], Cards[card] with { Seed = seed }, hasOthers: card == 2, mostIsos);
}
