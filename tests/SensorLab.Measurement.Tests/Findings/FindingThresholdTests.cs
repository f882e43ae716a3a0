using System.Globalization;

namespace SensorLab.Measurement.Tests.Findings;

/// <summary>
/// Each finding begins between a size that moves no figure by as much as matters, though it may stand out of chance, and one
/// that does: the catalogue's thresholds from both sides.
/// </summary>
public sealed class FindingThresholdTests
{
    [Theory]
    [InlineData("light-drift", 0.03, 0.1)]
    [InlineData("light-flicker", 0.002, 0.01)]
    [InlineData("light-banded", 0.001, 0.1)]
    [InlineData("exposure-inexact", 0.004, 0.06)]
    [InlineData("response-nonlinear", 0.002, 0.05)]
    [InlineData("target-uneven", 0.01, 0.1)]
    [InlineData("target-textured", 0.0004, 0.006)]
    [InlineData("metered-doubtful", 0.02, 0.2)]
    [InlineData("levels-declared", 0.4, 1)]
    [InlineData("dark-current", 0.02, 0.5)]
    [InlineData("dark-lit", 0.05, 1.5)]
    [InlineData("black-drift", 0.05, 1.5)]
    [InlineData("noise-banded", 0.1, 1)]
    [InlineData("raw-filtered", 0.002, 0.03)]
    [InlineData("channel-scaled", 0.0005, 0.03)]
    [InlineData("gain-digital", 1, 2)]
    [InlineData("model-rejected", 0.0002, 0.01)]
    [InlineData("black-clipped", 6, 1)]
    public void Finding_BetweenHarmlessAndHarmful_Begins(string code, double harmless, double harmful)
    {
        Assert.DoesNotContain(RehearsedSet.Examine([Sized(code, harmless)]), f => f.Code == code);
        Assert.Contains(RehearsedSet.Examine([Sized(code, harmful)]), f => f.Code == code);
    }

    [Theory]
    [InlineData("gain-switch", 0.05, 0.4)]
    [InlineData("iso-disagrees", 0.01, 0.1)]
    public void FindingAcrossIsos_BetweenHarmlessAndHarmful_Begins(string code, double harmless, double harmful)
    {
        Assert.DoesNotContain(RehearsedSet.Examine([Sized(code, harmless)], null, 1, 100, 400, 1600), f => f.Code == code);
        Assert.Contains(RehearsedSet.Examine([Sized(code, harmful)], null, 1, 100, 400, 1600), f => f.Code == code);
    }

    private static string Sized(string code, double size) => string.Create(CultureInfo.InvariantCulture, $"{code}={size}");
}
