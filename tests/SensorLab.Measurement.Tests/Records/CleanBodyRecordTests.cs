using SensorLab.FlawMatrix;
using SensorLab.Measurement.Tests.Findings;

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
}
