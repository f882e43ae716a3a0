using System.Globalization;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;

namespace SensorLab.Planning.Tests.Plans;

public sealed class PlanComparisonTests
{
    private static readonly ShotPlan Plan = ShotPlanner.Plan(new PlanRequest { Protocol = ProtocolLibrary.Find("evening")!, Isos = [100, 800], Mains = new MainsLight(50) });

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Of_EverythingShot_MissesNothing(bool exact)
    {
        PlanComparison comparison = PlanComparison.Of(Plan, Shot(exact));

        Assert.Empty(comparison.Missing);
        Assert.Empty(comparison.ShotTwice);
        Assert.Empty(comparison.NotPlanned);
    }

    [Fact]
    public void Of_FramesLost_ListsThemAgainInShootingOrder()
    {
        PlanStep[] lost = [Plan.Steps[3], Plan.Steps.First(s => s.LightStep is not null), Plan.Steps[^1]];
        ShotFrame[] left = [.. Shot(false).Where(f => !lost.Any(l => f.File.StartsWith(Name(l), StringComparison.Ordinal) && f.File.EndsWith("-0", StringComparison.Ordinal)))];

        PlanComparison comparison = PlanComparison.Of(Plan, left);

        Assert.Equal(lost.Select(l => (l.Role, l.Iso, l.Shutter, l.LightStep)), comparison.Missing.Select(m => (m.Role, m.Iso, m.Shutter, m.LightStep)));
        Assert.All(comparison.Missing, m => Assert.Equal(1, m.Frames));
        Assert.Equal([1, 2, 3], comparison.Missing.Select(m => m.Number));
        Assert.Contains("sensorlab assign", string.Join(' ', comparison.Missing[1].Actions), StringComparison.Ordinal);
        Assert.Contains("Cap on", string.Join(' ', comparison.Missing[2].Actions), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_MoreThanPlanned_IsToldAndNothingElse()
    {
        PlanStep step = Plan.Steps.First(s => s.Role == "bracket");
        ShotFrame more = new("again", step.Role, step.Iso, step.ExposureSeconds, step.LightStep, null);
        ShotFrame other = new("other", "bracket", 3200, 0.5, null, null);
        ShotFrame unknown = new("unknown", null, 100, 0.5, null, null);

        PlanComparison comparison = PlanComparison.Of(Plan, [.. Shot(false), more, other, unknown]);

        PlanExcess excess = Assert.Single(comparison.ShotTwice);
        Assert.Equal((step.Role, step.Iso, step.Shutter, 1), (excess.Role, excess.Iso, excess.Shutter, excess.Frames));
        Assert.Equal(["other", "unknown"], comparison.NotPlanned);
        Assert.Empty(comparison.Missing);
    }

    [Fact]
    public void Of_MeteredAtOtherTimes_CountsAsMetered()
    {
        ShotFrame[] shot = [.. Shot(false).Select(f => f.Role == "metered" ? f with { ExposureSeconds = f.ExposureSeconds * 1.6 } : f)];

        Assert.Empty(PlanComparison.Of(Plan, shot).Missing);
    }

    [Fact]
    public void Document_RoundTrip_IsTheSamePlan()
    {
        string path = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(path, ShotPlanDocument.Write(Plan));

            Assert.Equal(ShotPlanDocument.Write(Plan), ShotPlanDocument.Write(ShotPlanDocument.ReadFile(path)));
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{\"format\": \"sensorlab-profile\", \"formatVersion\": \"1.0\"}")]
    [InlineData("{\"format\": \"sensorlab-plan\", \"formatVersion\": \"2.0\"}")]
    [InlineData("{\"format\": \"sensorlab-plan\", \"formatVersion\": \"1.0\", \"steps\": 3}")]
    [InlineData("{\"format\": 7}")]
    public void Document_NoPlan_IsRefusedWithARemedy(string text)
    {
        string path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, text);

            PlanFormatException fault = Assert.Throws<PlanFormatException>(() => ShotPlanDocument.ReadFile(path));

            Assert.Contains("plan.json", fault.Remedy, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static ShotFrame[] Shot(bool exact) =>
    [
        .. Plan.Steps.SelectMany(s => Enumerable.Range(0, s.Frames).Select(i => new ShotFrame(
            $"{Name(s)}-{i}",
            s.Role,
            s.Iso,
            exact ? Math.Pow(2, Math.Round(3 * Math.Log2(s.ExposureSeconds)) / 3) : s.ExposureSeconds,
            s.LightStep,
            s.Light))),
    ];

    private static string Name(PlanStep step) => "f" + step.Number.ToString("000", CultureInfo.InvariantCulture);
}
