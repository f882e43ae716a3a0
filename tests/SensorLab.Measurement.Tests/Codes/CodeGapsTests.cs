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

    /// <summary>A code that would have 200 of 1000 values, a fifth: its neighbours hold them, all on one side or half on either.</summary>
    [Theory]
    [InlineData(400, 200)]
    [InlineData(300, 300)]
    public void ShiftDn_OneCodeMissing_IsThreeQuartersOfItsShare(int before, int after) =>
        Assert.Equal(0.75 * 0.2, CodeGaps.ShiftDn(Codes(200, before, 0, after, 200)), 1e-12);

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
