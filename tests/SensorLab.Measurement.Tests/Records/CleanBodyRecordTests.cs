using SensorLab.FlawMatrix;
using SensorLab.Measurement.Figures;
using SensorLab.Measurement.Tests.Findings;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Measurement.Tests.Records;

/// <summary>Figures of bodies with nothing wrong, as on record.</summary>
public sealed class CleanBodyRecordTests
{
    [Theory]
    [InlineData("colour")]
    [InlineData("monochrome")]
    [InlineData("patterned")]
    [InlineData("deep")]
    [InlineData("coarse")]
    [InlineData("patient")]
    [InlineData("six by six")]
    [InlineData("quad")]
    public void Body_GivesItsFiguresOnRecord(string name)
    {
        MatrixBody body = MatrixBody.All.Single(b => b.Name == name);

        FigureRecord.Verify(RehearsedSet.Evidence([], body.Body, 1, body.Iso), $"Clean/{name}");
    }

    /// <summary>Every profile has these: 40 and 10 are ISO 12232's, 1 is EMVA 1288's.</summary>
    [Fact]
    public void Options_AskForNothing_HaveTheCriteriaOfEveryProfile() => Assert.Equal([40, 20, 10, 4, 1], new IsoOptions().SnrCriteria);

    [Fact]
    public void Body_WhoseGreyIsReckonedFromSaturation_GivesItsFiguresOnRecord() =>
        FigureRecord.Verify(RehearsedSet.Evidence([], new IsoOptions { Grey = GreyMethod.Saturation }), "Clean/grey by saturation");

    [Fact]
    public void Body_WhoseFilesAreDeliveredSmaller_GivesItsFiguresOnRecord() =>
        FigureRecord.Verify(RehearsedSet.Evidence([], new IsoOptions { Delivery = new Delivery(3000, 2000), SensorPixels = 24_000_000 }), "Clean/delivered smaller");
}
