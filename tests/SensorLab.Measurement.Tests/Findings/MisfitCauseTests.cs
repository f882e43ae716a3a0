using SensorLab.FlawMatrix.Foreign;
using SensorLab.Measurement.Findings.Codes;
using SensorLab.Measurement.Findings.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>What leaves the line names its cause, each by a law that no estimator contains.</summary>
public sealed class MisfitCauseTests
{
    [Theory]
    [InlineData("excess noise", 0.02, "response wavers")]
    [InlineData("noisy lamp", 0.01, "rows share it")]
    [InlineData("cubic response", 0.2, "response is not straight")]
    [InlineData("one channel bends", 0.05, "response is not straight")]
    [InlineData("one loud dark frame", 10, "a dark frame was disturbed")]
    [InlineData("photosites bend apart", 0.03, "Photosites then bend apart")]
    public void Message_CauseThatShows_NamesIt(string name, double size, string words)
    {
        IReadOnlyList<Finding> found = RehearsedSet.Examine(ForeignFlaws.Named(name), size);

        Assert.Contains(words, Assert.Single(found, f => f.Code == FindingCode.ModelRejected).Message, StringComparison.Ordinal);
    }

    /// <summary>The frames to shoot again are the dark ones.</summary>
    [Fact]
    public void Frames_ADarkFrameThatWasDisturbed_AreTheDarkOnes() =>
        Assert.All(Assert.Single(RehearsedSet.Examine(ForeignFlaws.Named("one loud dark frame"), 10), f => f.Code == FindingCode.ModelRejected).Frames, f => Assert.StartsWith("dark", f, StringComparison.Ordinal));

    [Fact]
    public void Banded_RowsOfSomeDarkFrames_ComeAndGo()
    {
        IReadOnlyList<Finding> found = RehearsedSet.Examine(ForeignFlaws.Named("one banded frame"), 3);

        Assert.Contains(found, f => f.Code == FindingCode.NoiseBanded && f.Message.Contains("some dark frames and not of others", StringComparison.Ordinal));
    }

    /// <summary>Offsets that go together without light are no texture of the target.</summary>
    [Fact]
    public void Textured_OffsetsAsOnAChessboard_AreNone() =>
        Assert.DoesNotContain(RehearsedSet.Examine(ForeignFlaws.Named("chequered black"), 5, ForeignFlawTests.SmallMonochrome), f => f.Code == FindingCode.TargetTextured);

    [Fact]
    public void Cause_UnevenSteps_AreNamed() =>
        Assert.Contains("steps are uneven", MisfitCause.Of(RehearsedSet.Evidence(ForeignFlaws.Named("uneven steps"), 0.4)[0], ["G1"]).Words, StringComparison.Ordinal);

    [Fact]
    public void Uneven_StepsOfASoundConverter_AreEven() => Assert.Null(ConverterSteps.UnevennessOf(RehearsedSet.Evidence([])[0]));

    // Of every second step a share goes to its neighbours: widths of 1 − 0.4 and 1 + 0.4 by turns.
    [Fact]
    public void Uneven_StepsOfKnownWidths_AreMeasured() =>
        Assert.InRange(ConverterSteps.UnevennessOf(RehearsedSet.Evidence(ForeignFlaws.Named("uneven steps"), 0.4)[0])!.Value, 0.3, 0.7);

    [Fact]
    public void ChannelScaled_TwoFactors_NamesEach()
    {
        IReadOnlyList<Finding> found = RehearsedSet.Examine(ForeignFlaws.Named("two channels multiplied"), 0.12);

        Assert.Matches(@"R by 1\.1[12]\d and B by 1\.2[34]\d", Assert.Single(found, f => f.Code == FindingCode.ChannelScaled).Message);
    }
}
