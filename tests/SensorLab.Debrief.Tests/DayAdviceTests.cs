using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Debrief.Tests;

/// <summary>What is advised of frames whose room is known.</summary>
public sealed class DayAdviceTests
{
    [Fact]
    public void Advice_SixTenthsLow_NamesThem() =>
        Assert.StartsWith("ISO 400 (5 frames): your brightest surfaces lay 0.6 ±0.1 stops lower than this body holds.", Of(0.58, 0.6, 0.62, 0.6, 0.6), StringComparison.Ordinal);

    [Fact]
    public void Advice_AStopHigh_AsksForLess() =>
        Assert.StartsWith("ISO 400 (5 frames): your brightest surfaces lay 1.0 ±0.2 stops higher than this body holds.", Of(-1, -0.98, -1.02, -1, -1), StringComparison.Ordinal);

    [Fact]
    public void Advice_AtTheClip_IsPraise() => Assert.Contains("placed well", Of(0.05, 0, 0.1, 0.02, 0.03), StringComparison.Ordinal);

    [Fact]
    public void Advice_FramesThatDiffer_GetsNoOneChange() => Assert.Contains("No one change of exposure fits them all", Of(-1, 2, 0, 1.5, -0.8), StringComparison.Ordinal);

    [Fact]
    public void Advice_MostFramesClippedInEveryChannel_IsABound()
    {
        string advice = Of(null, null, null, 0.5);

        Assert.Contains("0.9 stops or more above what this body holds, in every channel", advice, StringComparison.Ordinal);
    }

    [Fact]
    public void Median_OfManyFrames_HoldsTheirMedianInItsInterval()
    {
        var random = new Random(3);
        int held = 0;
        const int Days = 400;
        for (int day = 0; day < Days; day++)
        {
            // Symmetric about 0.4: the median of all such frames.
            Figure median = Use([.. Enumerable.Range(0, 12).Select(_ => (double?)(0.4 + (0.3 * (random.NextDouble() + random.NextDouble() - 1))))]).ExposeToClipEv!;
            held += median.Lower95 <= 0.4 && median.Upper95 >= 0.4 ? 1 : 0;
        }

        // 95 % and no less than 92 %: four standard deviations of 400 draws below.
        Assert.InRange((double)held / Days, 0.92, 1);
    }

    private static string Of(params double?[] changes) => Day(changes).Advice[0];

    private static IsoUse Use(double?[] changes) => Day(changes).Isos[0];

    private static DayDebrief Day(double?[] changes) => DayDebrief.Of(SampleProfiles.ThreeIsos(), changes.Select((change, i) => new FrameDebrief
    {
        File = $"{i}.dng",
        Iso = 400,
        ProfileIso = 400,
        ClippedPercent = new Dictionary<string, double>(),
        ClippedSurfacePercent = 0,
        HeadroomLeftEv = Math.Max(0, change ?? 0),
        ClipStandardUncertaintyEv = 0.001,
        ExposeToClipEv = change,
        ExposeToClipAtMostEv = change is null ? -0.94 : null,
        IsReckonedBeyondClip = change < 0,
        ShadowPercent = new ShadowShare(0, 0),
        BrightestEv = 3,
        MedianEv = 0,
        DarkestEv = -4,
    }), []);
}
