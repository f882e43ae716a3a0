using SensorLab.FlawMatrix;
using SensorLab.Measurement.Tests.Findings;

namespace SensorLab.Measurement.Tests.Records;

/// <summary>Findings of flawed sets with their words, and what becomes of the figures, as on record.</summary>
public sealed class FlawRecordTests
{
    [Theory]
    [InlineData("light-flicker=0.03")]
    [InlineData("light-drift=0.3")]
    [InlineData("light-banded=0.1")]
    [InlineData("exposure-inexact=0.06")]
    [InlineData("response-nonlinear=0.05")]
    [InlineData("target-uneven=0.1")]
    [InlineData("target-textured=0.02")]
    [InlineData("pixels-hot=2000")]
    [InlineData("field-glowing=30")]
    [InlineData("dark-lit=5")]
    [InlineData("dark-current=10")]
    [InlineData("black-drift=1.5")]
    [InlineData("metered-doubtful=0.7")]
    [InlineData("model-rejected=0.01")]
    [InlineData("levels-declared=8")]
    [InlineData("noise-banded=8")]
    [InlineData("shadow-banded=18")]
    [InlineData("raw-filtered=0.03")]
    [InlineData("channel-scaled=0.12")]
    [InlineData("black-clipped=2")]
    [InlineData("gain-digital=2")]
    public void Flaw_OnTheColourBody_GivesWhatIsOnRecord(string flaw) => Verify("colour", flaw, 100);

    [Theory]
    [InlineData("light-drift=0.3")]
    [InlineData("light-banded=0.1")]
    [InlineData("response-nonlinear=0.05")]
    [InlineData("black-drift=1.5")]
    [InlineData("black-clipped=2")]
    [InlineData("raw-filtered=0.3")]
    public void Flaw_OnTheMonochromeBody_GivesWhatIsOnRecord(string flaw) => Verify("monochrome", flaw, 400);

    [Theory]
    [InlineData("gain-switch=0.4")]
    [InlineData("iso-disagrees=0.1")]
    public void FlawAcrossIsos_GivesWhatIsOnRecord(string flaw) => Verify("colour", flaw, 100, 400, 1600);

    /// <summary>Between what a check lets pass and what it is sure of: doubts, and figures that are a little off.</summary>
    [Theory]
    [InlineData("light-flicker=0.008")]
    [InlineData("light-drift=0.06")]
    [InlineData("exposure-inexact=0.015")]
    [InlineData("response-nonlinear=0.008")]
    [InlineData("target-uneven=0.03")]
    [InlineData("target-textured=0.002")]
    [InlineData("dark-lit=0.4")]
    [InlineData("dark-current=0.15")]
    [InlineData("black-drift=0.3")]
    [InlineData("black-clipped=4")]
    [InlineData("noise-banded=0.5")]
    [InlineData("raw-filtered=0.007")]
    [InlineData("channel-scaled=0.004")]
    [InlineData("model-rejected=0.002")]
    public void Flaw_OfASmallSize_GivesWhatIsOnRecord(string flaw) => Verify("colour", flaw, 100);

    [Theory]
    [InlineData("coarse", "black-drift=0.3")]
    [InlineData("coarse", "dark-current=0.3")]
    [InlineData("coarse", "raw-filtered=0.03")]
    [InlineData("coarse", "noise-banded=1")]
    [InlineData("deep", "response-nonlinear=0.05")]
    [InlineData("patterned", "black-drift=0.3")]
    [InlineData("patient", "light-flicker=0.01")]
    [InlineData("six by six", "dark-lit=2")]
    [InlineData("quad", "pixels-hot=200")]
    public void Flaw_OnAnotherBody_GivesWhatIsOnRecord(string body, string flaw) => Verify(body, flaw, MatrixBody.All.Single(b => b.Name == body).Iso);

    private static void Verify(string body, string flaw, params int[] isos) =>
        FigureRecord.Verify(RehearsedSet.Evidence([flaw], MatrixBody.All.Single(b => b.Name == body).Body, 1, isos), $"Flaws/{body} {flaw}");
}
