using SensorLab.Measurement.Codes;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Tests.Codes;

/// <summary>Codes that a recording leaves out, and what their values may be off by.</summary>
public sealed class CodeGapsTests
{
    [Fact]
    public void ShiftDn_CodesWithoutAGap_IsNone() => Assert.Equal(0, CodeGaps.ShiftDn(Codes(3, 100, 800, 900, 200, 5)));

    /// <summary>Hot pixels stand alone, and the last values of a flank by chance.</summary>
    [Fact]
    public void ShiftDn_GapsBesideFewValues_AreChance() => Assert.Equal(0, CodeGaps.ShiftDn(Codes(2, 0, 100, 900, 120, 0, 3, 0, 0, 1)));

    /// <summary>A code that would have 200 of 1200 values: its neighbours hold them, 300 each, and the mean is off by a sixth where one has them all.</summary>
    [Fact]
    public void ShiftDn_OneCodeMissing_IsItsShare() => Assert.Equal(150.0 / 1200, CodeGaps.ShiftDn(Codes(300, 300, 0, 300, 300)), 1e-12);

    /// <summary>Codes that lie s apart are off by up to (s − 1)/2 on the mean; the outermost have a neighbour on one side only.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    public void ShiftDn_EvenSteps_IsHalfOfWhatTheyAreWiderBy(int step)
    {
        int[] counts = [.. Enumerable.Range(0, (100 * step) + 1).Select(i => i % step == 0 ? 100 : 0)];

        Assert.Equal((step - 1) / 2.0, CodeGaps.ShiftDn(Codes(counts)), 0.01 * step);
    }

    private static CodeHistogram Codes(params int[] counts) => new(500, [.. counts.Select(c => (long)c)]);
}
