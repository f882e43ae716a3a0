using SensorLab.FlawMatrix.Foreign;
using SensorLab.Measurement.Findings;
using SensorLab.Measurement.Findings.Codes;

namespace SensorLab.Measurement.Tests.Findings;

public sealed class CodeStepsTests
{
    /// <summary>Steps of a curve of square roots widen with the light, those of a recording of fewer bits are the same everywhere.</summary>
    [Theory]
    [InlineData("square-root curve", 1000, true)]
    [InlineData("gaps of codes", 4, false)]
    public void Pattern_OfARecording_TellsWhetherItsStepsGrow(string law, double size, bool grows)
    {
        IsoEvidence evidence = Assert.Single(RehearsedSet.Evidence(ForeignFlaws.Named(law), size));

        Assert.Equal(grows ? StepPattern.Growing : StepPattern.Even, evidence.CodeSteps.Value.Pattern);
        Assert.Equal(grows, evidence.CodeSteps.Value.WideLevels.Count > 0);
    }
}
