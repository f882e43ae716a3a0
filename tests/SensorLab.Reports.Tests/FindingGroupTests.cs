using SensorLab.Profiles;
using SensorLab.Reports.Tests.Samples;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests;

public sealed class FindingGroupTests
{
    private static readonly SensorProfile Profile = SampleProfiles.ThreeIsos();

    [Fact]
    public void Of_OneFlawAtEightIsos_IsOneEntryThatSaysWhereAndWhatToDo()
    {
        Finding[] flicker = [.. Enumerable.Range(0, 8).Select(i => Found(FindingCode.LightFlicker, FindingSeverity.Warning, 100 << i, 0.01 * (i == 3 ? 9 : 1), "relative") with { Frames = [$"bracket/{i}.dng", "bracket/all.dng"] })];

        FindingGroup group = Assert.Single(FindingGroup.Of(flicker, Profile));

        Assert.Equal("warning: light-flicker, 8 ISOs, 100 to 12800", group.Heading);
        Assert.Equal(800, group.Worst.Iso);
        Assert.True(group.IsCompensated);
        Assert.Equal("Compensated: the figures are free of it.", group.Effect);
        Assert.Equal(9, group.Frames.Count);
        Assert.Equal("r", group.Remedy);
    }

    [Fact]
    public void Of_Findings_StandRefusalsFirstThenByStopsThenWhatWasCompensated()
    {
        Finding[] findings =
        [
            Found(FindingCode.LightFlicker, FindingSeverity.Warning, 100, 0.5, "relative"),
            Found(FindingCode.GainSwitch, FindingSeverity.Note, 400),
            Found(FindingCode.TargetTextured, FindingSeverity.Warning, 100, 0.01, "relative"),
            Found(FindingCode.MeteredDoubtful, FindingSeverity.Warning, 400, 0.3, "ev"),
            Found(FindingCode.TargetUneven, FindingSeverity.Note, null, 0.2, "ev"),
            Found(FindingCode.MeteredMissing, FindingSeverity.Refusal, 3200),
        ];

        Assert.Equal(
            [FindingCode.MeteredMissing, FindingCode.MeteredDoubtful, FindingCode.TargetTextured, FindingCode.GainSwitch, FindingCode.LightFlicker, FindingCode.TargetUneven],
            FindingGroup.Of(findings, Profile).Select(g => g.Code));
    }

    // 0.3 EV is 0.3 stops; 7 % more light is log2 1.07 = 0.098 stops; 10 DN on the 1727·2^below DN at the shadow end of the sample.
    [Theory]
    [InlineData(FindingCode.MeteredDoubtful, 0.3, "ev", 0.3)]
    [InlineData(FindingCode.LightDrift, 0.07, "relative", 0.0976)]
    [InlineData(FindingCode.PairMissing, 3, "count", null)]
    public void Stops_Size_IsSaidAsStops(string code, double size, string unit, double? expected)
    {
        FindingGroup group = Assert.Single(FindingGroup.Of([Found(code, FindingSeverity.Warning, 400, size, unit)], Profile));

        Assert.Equal(expected, group.Stops is { } stops ? Math.Round(stops, 4) : null);
    }

    [Fact]
    public void Stops_Codes_WeighByTheSignalAtTheShadowEnd()
    {
        IsoProfile iso = Profile.IsoProfiles[1];
        double grey = iso.Channels[1].MiddleGreyDn!.Value!.Value;
        double below = iso.Latitude.BelowEv.Single(e => e.Snr == 10).PerPixel!.Value!.Value;
        double signal = grey / Math.Pow(2, below);

        FindingGroup group = Assert.Single(FindingGroup.Of([Found(FindingCode.DarkLit, FindingSeverity.Warning, 400, signal, "dn")], Profile));

        // As much again as the signal itself is one stop.
        Assert.Equal(1, group.Stops!.Value, 9);
        Assert.StartsWith("It can move the shadow end by up to 1.00 stops.", group.Effect, StringComparison.Ordinal);
    }

    [Fact]
    public void Effect_EndThatIsOnlyABound_IsSaid()
    {
        FindingGroup group = Assert.Single(FindingGroup.Of([Found(FindingCode.SaturationNotReached, FindingSeverity.Warning, 400)], SampleStates.Of("bounds")));

        Assert.Equal("The bright end is only a bound.", group.Effect);
    }

    [Fact]
    public void Brief_AnyNumberOfFlaws_IsFiveLinesAtMostAndLeavesNoneUncounted()
    {
        string[] codes = [FindingCode.MeteredDoubtful, FindingCode.DarkLit, FindingCode.TargetTextured, FindingCode.LightDrift, FindingCode.ModelRejected, FindingCode.RawFiltered, FindingCode.ShadowBanded];
        for (int count = 0; count <= codes.Length; count++)
        {
            IReadOnlyList<FindingGroup> groups = FindingGroup.Of([.. codes.Take(count).Select(c => Found(c, FindingSeverity.Warning, 400)), Found(FindingCode.GainSwitch, FindingSeverity.Note, 400)], Profile);

            IReadOnlyList<string> lines = FindingGroup.Brief(groups);

            Assert.InRange(lines.Count, 1, 5);
            int told = lines.Count(l => l.StartsWith("warning: ", StringComparison.Ordinal));
            Assert.Equal(count > 4 ? $"And {count + 1 - told} findings more, of which 1 note; all of them below." : $"1 note{(count > 0 ? " more" : string.Empty)}, below: worth knowing, but the figures stand.", lines[^1]);
        }

        Assert.Empty(FindingGroup.Brief([]));
    }

    [Fact]
    public void Of_EveryCodeOfTheCatalogue_HasAPhotographersWords()
    {
        string[] codes = [.. typeof(FindingCode).GetFields().Where(f => f.IsLiteral).Select(f => (string)f.GetRawConstantValue()!)];

        Assert.All(codes, code => Assert.NotEqual("the message", Assert.Single(FindingGroup.Of([Found(code, FindingSeverity.Warning, 100) with { Message = "the message" }])).What));
        Assert.Equal("the message", Assert.Single(FindingGroup.Of([Found("of-tomorrow", FindingSeverity.Warning, 100) with { Message = "the message" }])).What);
    }

    [Fact]
    public void ShootAgain_ManyFlaws_IsInTheOrderOfDoing()
    {
        SensorProfile profile = SampleProfile.ThreeIsos() with
        {
            Findings =
            [
                Found(FindingCode.DarkMissing, FindingSeverity.Refusal, 800), Found(FindingCode.SaturationNotReached, FindingSeverity.Warning, 100),
                Found(FindingCode.MeteredDoubtful, FindingSeverity.Warning, 400), Found(FindingCode.RawFiltered, FindingSeverity.Warning, null),
            ],
        };

        string[] starts = ["The whole set, with noise reduction and sharpening off", "ISO 400: the metered frames", "ISO 100: the bracket's bright end", "ISO 800: the dark frames"];
        IReadOnlyList<string> again = ProfileReview.Of(profile).ShootAgain;
        Assert.Equal(starts.Length, again.Count);
        Assert.All(starts.Zip(again), pair => Assert.StartsWith(pair.First, pair.Second, StringComparison.Ordinal));
    }

    private static Finding Found(string code, FindingSeverity severity, int? iso, double? size = null, string? unit = null) =>
        new() { Code = code, Severity = severity, Iso = iso, Size = size, SizeUnit = unit, Message = $"m {iso}", Remedy = "r" };
}
