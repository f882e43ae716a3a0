using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Tests.Flaws;

public sealed class FlawCatalogueTests
{
    public static TheoryData<string> Codes => [.. FlawCatalogue.All.Select(flaw => flaw.Code)];

    [Fact]
    public void Parse_UnknownCode_NamesTheKnownOnes()
    {
        RehearsalUsageException error = Assert.Throws<RehearsalUsageException>(() => FlawRequest.Parse("light-flickers"));
        Assert.Contains("'light-flickers'", error.Message, StringComparison.Ordinal);
        Assert.Contains("light-flicker, ", error.Message, StringComparison.Ordinal);
        Assert.Contains("target-uneven", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("light-flicker=0.05", "light-flicker", 0.05)]
    [InlineData("pixels-hot=12", "pixels-hot", 12.0)]
    [InlineData("body-mixed", "body-mixed", null)]
    public void Parse_CodeAndSize_HoldsBoth(string text, string code, double? size) =>
        Assert.Equal(new FlawRequest(code, size), FlawRequest.Parse(text));

    [Theory]
    [InlineData("light-flicker=much", "no number")]
    [InlineData("light-flicker=-1", "must be 0 to 0.3")]
    [InlineData("light-flicker=NaN", "must be 0 to 0.3")]
    [InlineData("pixels-hot=1.5", "a whole number")]
    [InlineData("body-mixed=2", "has no size")]
    public void Parse_ImpossibleSize_SaysWhatIsPossible(string text, string reason) =>
        Assert.Contains(reason, Assert.Throws<RehearsalUsageException>(() => FlawRequest.Parse(text)).Message, StringComparison.Ordinal);

    [Theory]
    [MemberData(nameof(Codes))]
    public void Of_EachFlawAtItsDefault_ChangesTheSetAndNothingHangsOnChance(string code)
    {
        string clean = Digest(FlawStage.Plan());
        string flawed = Digest(FlawStage.Plan(code));
        Assert.NotEqual(clean, flawed);
        Assert.Equal(flawed, Digest(FlawStage.Plan(code)));
    }

    [Fact]
    public void Of_SeveralFlaws_AllApply()
    {
        RehearsalPlan plan = FlawStage.Plan("light-flicker=0.02", "noise-banded=1", "pair-missing=2", "pixels-hot=3");
        Assert.Equal(1, plan.Camera.Body.RowNoiseElectron);
        Assert.Equal(FlawStage.Plan().Frames.Count - 2, plan.Frames.Count);
        Assert.All(plan.Frames, frame => Assert.Single(frame.Exposure.Effects));
    }

    [Fact]
    public void Of_OneFlawTwice_IsRefused() =>
        Assert.Contains("named twice", Assert.Throws<RehearsalUsageException>(() => FlawStage.Plan("pixels-hot=1", "pixels-hot=2")).Message, StringComparison.Ordinal);

    [Fact]
    public void Of_DuplicateAndFlickerInEitherOrder_LeavesTheDuplicateOne()
    {
        RehearsalPlan plan = FlawStage.Plan("frame-duplicate", "light-flicker=0.1");
        Assert.Single(plan.Frames.GroupBy(frame => frame.Exposure.FrameNumber), group => group.Count() == 2);
        Assert.Equal(Digest(plan), Digest(FlawStage.Plan("light-flicker=0.1", "frame-duplicate")));
    }

    // What a set consists of: names, what files say, what the table says, and every code.
    private static string Digest(RehearsalPlan plan)
    {
        var hash = new HashCode();
        foreach (PlannedFrame frame in plan.Frames)
        {
            hash.Add(frame.File, StringComparer.Ordinal);
            hash.AddBytes(plan.Encode(frame));
        }

        hash.Add(FrameTable.Of(plan.Frames) ?? string.Empty, StringComparer.Ordinal);
        return $"{plan.Frames.Count} {hash.ToHashCode()}";
    }
}
