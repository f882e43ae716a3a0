using SensorLab.Retest;
using SensorLab.Shelf.History;
using SensorLab.Shelf.Models;
using SensorLab.TestData;
using static SensorLab.TestData.NormalNumbers;

namespace SensorLab.Shelf.Tests;

public sealed class FigureSpreadTests
{
    private static readonly FigureAddress ReadNoise = new(100, "G1", "readNoiseElectron");

    [Fact]
    public void Spread_OfFiveBodies_IsReckonedByHand()
    {
        // Mean 3, s² = 10/4, so that the next body has u = √(2.5 · 1.2) = √3; t of 97.5 % with 4 degrees is 2.776445 (tables).
        FigureSpread spread = FigureSpread.Of(ReadNoise, Bodies(1, 2, 3, 4, 5), bounds: 0, family: 5);

        Assert.Equal(3, spread.Mean, 12);
        Assert.Equal(Math.Sqrt(2.5), spread.StandardDeviation!.Value, 12);
        Assert.Equal(Math.Sqrt(3), spread.Unmeasured!.StandardUncertainty!.Value, 12);
        Assert.Equal(3 + (2.776445 * Math.Sqrt(3)), spread.Unmeasured.Upper95!.Value, 5);
        Assert.Empty(spread.StandingOut);
    }

    [Fact]
    public void Spread_OfBodiesThatAgree_IsNoNarrowerThanOneSetLeavesOpen()
    {
        FigureSpread spread = FigureSpread.Of(ReadNoise, Bodies(0.1, [3.2, 3.2, 3.2, 3.2]), bounds: 0, family: 4);

        Assert.Equal(3.2 + (1.959964 * 0.1 * Math.Sqrt(1.25)), spread.Unmeasured!.Upper95!.Value, 6);
    }

    [Fact]
    public void Spread_OfOneBody_SaysNothingOfAnother()
    {
        FigureSpread spread = FigureSpread.Of(ReadNoise, Bodies(2.5), bounds: 1, family: 1);

        Assert.Null(spread.Unmeasured);
        Assert.Null(spread.StandardDeviation);
        Assert.Empty(spread.StandingOut);
    }

    [Fact]
    public void StandingOut_TwoThatHideEachOther_AreBothFound()
    {
        double[] values = [.. Enumerable.Range(0, 20).Select(i => 3 + (0.01 * (i % 5))), 3.9, 4.1];

        Assert.Equal([4.1, 3.9], FigureSpread.Of(ReadNoise, Bodies(values), 0, values.Length).StandingOut.Select(b => b.Value));
    }

    [Fact]
    public void StandingOut_BodiesAlikeToTheLastDigit_NeedMoreThanASetsOwnNoise()
    {
        Assert.Empty(FigureSpread.Of(ReadNoise, Bodies(3, 3, 3, 3, 3, 3.02), 0, 6).StandingOut);
        Assert.Equal([4], FigureSpread.Of(ReadNoise, Bodies(3, 3, 3, 3, 3, 4), 0, 6).StandingOut.Select(b => b.Value));
    }

    /// <summary>
    /// 2,000 models of 8 bodies: the interval must hold the ninth 95 times in 100, and a fair sample must show a body that stands
    /// out in 5 of 100 at most. Limits: 4.5 standard deviations of the binomial.
    /// </summary>
    [Fact]
    public void Spread_OfFairSamples_HoldsTheNextBodyAndSeldomAccuses()
    {
        const int Models = 2000;
        var random = new Random(26);
        int held = 0;
        int accused = 0;
        for (int model = 0; model < Models; model++)
        {
            double[] values = [.. Enumerable.Range(0, 9).Select(_ => 3 + (0.1 * Normal(random)))];
            FigureSpread spread = FigureSpread.Of(ReadNoise, Bodies(0.001, values[..8]), 0, 8);
            held += values[8] >= spread.Unmeasured!.Lower95 && values[8] <= spread.Unmeasured.Upper95 ? 1 : 0;
            accused += spread.StandingOut.Count > 0 ? 1 : 0;
        }

        double half = 4.5 * Math.Sqrt(0.95 * 0.05 / Models);
        Assert.InRange((double)held / Models, 0.95 - half, 0.95 + half);
        Assert.InRange((double)accused / Models, 0, 0.05 + half);
    }

    [Fact]
    public async Task Compare_FleetWithABodyThatDrifted_NamesItAndTheModelsSpread()
    {
        using var folder = new TemporaryFolder();
        var fleet = new SimulatedFleet();
        var shelf = new ProfileShelf(folder.File("shelf"));
        int[] bodies = [.. Enumerable.Range(0, 12).Select(i => 3 * i)];
        await shelf.AddAsync(
            [.. bodies.SelectMany(b => new[] { 0, 1 }.Select(set => new ShelfCandidate("a profile", _ => ShelfDocument.Of(fleet.Profile(b, set, b == 9 ? 1 : null)))))],
            new Progress<int>(),
            TestContext.Current.CancellationToken);
        ShelfContents contents = shelf.Contents(TestContext.Current.CancellationToken);

        ModelSpread spread = shelf.Compare(contents.ModelOf("LM-2"), contents, new FigureChoice(100, "readNoiseElectron"), TestContext.Current.CancellationToken);

        Assert.Equal((12, 4), (spread.Bodies, spread.Figures.Count));
        Assert.All(spread.Figures, f => Assert.Equal(["20009"], f.StandingOut.Select(b => b.Profile.Body.SerialNumber)));
        Assert.All(spread.Figures, f => Assert.All(f.Bodies, b => Assert.Equal(1, contents.Of(b.Profile.Body).ToList().FindIndex(p => p.Key == b.Profile.Key))));
    }

    private static BodyFigure[] Bodies(params double[] values) => Bodies(0.01, values);

    private static BodyFigure[] Bodies(double uncertainty, double[] values) =>
    [
        .. values.Select((value, i) => new BodyFigure(new ShelvedProfile($"{i}", new ShelfBody($"{i}", null, null, $"{i}"), null, null, string.Empty, [], 0, "test"), value, uncertainty)),
    ];
}
