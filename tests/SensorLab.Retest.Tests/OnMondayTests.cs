using SensorLab.Profiles;

namespace SensorLab.Retest.Tests;

public sealed class OnMondayTests
{
    private static readonly SensorProfile Before = Edited.Sample;

    [Fact]
    public void OnMonday_WhereNothingChanged_KeepsTheProfile()
    {
        OnMonday monday = Of(Edited.Updated());

        Assert.Equal(RetestRecommendation.Keep, monday.Recommendation);
        Assert.Equal(["No tone moves by more than matters, at any ISO that was compared."], monday.Tones);
        Assert.Empty(monday.Ways);
    }

    [Fact]
    public void OnMonday_WhereSaturationFell_ReplacesTheProfileAndSaysWhichTonesMove()
    {
        OnMonday monday = Of(Edited.Iso(400, p => p with
        {
            Latitude = p.Latitude with { AboveEv = Edited.Moved(p.Latitude.AboveEv!, -0.2) },
            Channels = [.. p.Channels.Select(c => c with { SaturationDn = Edited.Moved(c.SaturationDn!, factor: Math.Pow(2, -0.2)) })],
        }));

        Assert.Equal(RetestRecommendation.Replace, monday.Recommendation);
        string tone = Assert.Single(monday.Tones);
        Assert.StartsWith("ISO 400: highlights clip 0.20 ±", tone, StringComparison.Ordinal);
        Assert.Contains("EV sooner (at +3.20 before, +3.00 after)", tone, StringComparison.Ordinal);
    }

    [Fact]
    public void OnMonday_OfAMoveWithinTheMetersStep_ShootsMeteredFramesFirst()
    {
        OnMonday monday = Of(Edited.GreyMoved(0.3, "1.2"));

        Assert.Equal(RetestRecommendation.ShootFirst, monday.Recommendation);
        Assert.Contains("edge of the meter's zero at ISO 100, 400, 1600", monday.Sentence, StringComparison.Ordinal);
        Assert.All(monday.Tones, t => Assert.Contains("shadow ends 0.30 ±", t, StringComparison.Ordinal));
        Assert.All(monday.Tones, t => Assert.Contains("deeper", t, StringComparison.Ordinal));
    }

    [Fact]
    public void OnMonday_OfAnotherBlack_TellsTheTeam() => Assert.Equal(
        RetestRecommendation.TellTheTeam,
        Of(Edited.Channels(100, c => c with { BlackLevelDn = Edited.Moved(c.BlackLevelDn!, 4) })).Recommendation);

    [Fact]
    public void OnMonday_OfFiguresThatFramesDecide_NamesThemOnce()
    {
        OnMonday monday = Of(Edited.Channels(100, c => c with { GainElectronPerDn = Edited.Moved(c.GainElectronPerDn!, uncertainty: 0.012 * c.GainElectronPerDn!.Value!.Value) }));

        Assert.Equal(RetestRecommendation.ShootFirst, monday.Recommendation);
        Assert.Contains("more pairs of frames at every level of the later set, at ISO 100", monday.Sentence, StringComparison.Ordinal);
        Assert.Single(monday.Ways);
    }

    [Fact]
    public void OnMonday_WhereTheMeterScatters_SaysEachReasonOnceAndWhatItCannotDecide()
    {
        SensorProfile[] repeats = [Edited.GreyMoved(0.12, "1.1"), Edited.GreyMoved(-0.1, "1.1")];

        OnMonday monday = ProfileComparison.Of(Before, Edited.GreyMoved(0.05, "1.2"), repeats, RetestMargins.Default).OnMonday;

        Assert.Equal(RetestRecommendation.Keep, monday.Recommendation);
        Assert.Equal(monday.Ways.Distinct(), monday.Ways);
        Assert.InRange(monday.Ways.Count, 1, 2);
        Assert.Contains("cannot decide", monday.CannotDecide, StringComparison.Ordinal);
    }

    private static OnMonday Of(SensorProfile after) => ProfileComparison.Of(Before, after, [], RetestMargins.Default).OnMonday;
}
