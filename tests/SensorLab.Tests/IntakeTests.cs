using SensorLab.Intakes;
using SensorLab.Profiles;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Tests;

/// <summary>What an intake says of a set, and that it never says otherwise than characterising it does.</summary>
public sealed class IntakeTests(RehearsedProfile rehearsed) : IClassFixture<RehearsedProfile>
{
    private static readonly byte[] PngSignature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    [Fact]
    public async Task RunAsync_SoundSet_TellsWhatThereIs()
    {
        IntakeReport report = await LookAsync(rehearsed.Frames);

        Assert.True(report.CanBeCharacterised);
        Assert.Equal("Larkmoor", report.Body!.Maker);
        Assert.Equal(192, report.Sensor!.WidthPixels);
        Assert.Equal([100, 400], report.Isos.Select(i => i.Iso));
        IntakeIso iso = report.Isos[0];
        Assert.Equal(["dark", "metered", "bracket"], iso.Roles.Select(r => r.Role));
        Assert.Empty(iso.Missing);
        Assert.Equal(report.RawFiles, rehearsed.Profile.Frames.Count);
        LevelRecord[] bracket = [.. rehearsed.Profile.IsoProfiles[0].Levels.Where(l => l.Role == "bracket")];
        IntakeRole role = iso.Roles.Single(r => r.Role == "bracket");
        Assert.Equal((bracket.Sum(l => l.Frames), bracket.Length), (role.Frames, role.Exposures));
        Assert.Equal(bracket.Max(l => l.Ev), iso.BrightestEv);
        Assert.True(iso.ClippingLevels >= bracket.Count(l => l.Channels.Any(c => c.ClippedFraction > 0)) && iso.ClippingLevels > 0);
    }

    [Fact]
    public async Task RunAsync_AnyNumberOfJobs_FindsTheSame()
    {
        IntakeReport one = await LookAsync(rehearsed.Frames, jobs: 1);
        IntakeReport two = await LookAsync(rehearsed.Frames, jobs: 2);

        Assert.Equal(Told(one.Findings), Told(two.Findings));
        Assert.Equal(one.Isos.Select(i => (i.Iso, i.DarkestEv, i.BrightestEv)), two.Isos.Select(i => (i.Iso, i.DarkestEv, i.BrightestEv)));
    }

    [Theory]
    [InlineData("light-flicker=0.05")]
    [InlineData("shadow-banded=8")]
    [InlineData("pair-missing")]
    [InlineData("frame-duplicate")]
    [InlineData("frame-unreadable")]
    [InlineData("saturation-not-reached")]
    [InlineData("body-mixed")]
    [InlineData("depth-mixed")]
    [InlineData("dark-missing")]
    [InlineData("metered-missing")]
    [InlineData("frames-none")]
    public async Task RunAsync_FlawedSet_AgreesWithCharacterising(string flaw)
    {
        using var set = new Rehearsed(flaw);

        IntakeReport report = await LookAsync(set.Frames);
        (bool isRefused, IReadOnlyList<Finding> findings) = await CharacteriseAsync(set.Frames);

        Assert.Equal(isRefused, !report.CanBeCharacterised);
        Assert.Contains(flaw.Split('=')[0], report.Findings.Select(f => f.Code));

        // All that characterising says; without metered frames an intake looks on and may say more.
        Assert.Subset(Told(report.Findings).ToHashSet(), Told(findings).ToHashSet());
        Assert.True(flaw == "metered-missing" || report.Findings.Count == findings.Count);
    }

    [Fact]
    public async Task RunAsync_NoMeteredFrames_LooksOnAndSaysThatSaturationWouldServe()
    {
        using var set = new Rehearsed("metered-missing", "pixels-hot=60");

        IntakeReport report = await LookAsync(set.Frames);

        Assert.False(report.CanBeCharacterised);
        Assert.True(report.CanBeWithGreyFromSaturation);
        Assert.Contains("metered frames", report.Isos.Single().Missing);
        Assert.Contains(FindingCode.PixelsHot, report.Findings.Select(f => f.Code));
    }

    [Fact]
    public async Task RunAsync_BodiesMixed_StillTellsTheFrames()
    {
        using var set = new Rehearsed("body-mixed");

        IntakeReport report = await LookAsync(set.Frames);

        Assert.False(report.CanBeCharacterised);
        Assert.Null(report.Region);
        Assert.Equal(["dark", "metered", "bracket"], report.Isos.Single().Roles.Select(r => r.Role));
        Assert.Equal(report.RawFiles, report.LeftOut.Count);
    }

    [Fact]
    public async Task RunAsync_SpotNamed_IsWhereMeteredFramesAreJudged()
    {
        IntakeReport report = await Intake.RunAsync(rehearsed.Frames, new CharacterisationOptions { Spot = (40, 30) }, null, TestContext.Current.CancellationToken);

        MeasuredRegion spot = report.Spot!;
        Assert.True(spot.X <= 40 && spot.X + spot.Width > 40 && spot.Y <= 30 && spot.Y + spot.Height > 30);
    }

    [Fact]
    public async Task Png_Report_IsAPictureOfTheField()
    {
        IntakeReport report = await LookAsync(rehearsed.Frames);

        byte[] png = FieldThumbnail.Png(rehearsed.Frames, report, TestContext.Current.CancellationToken);

        Assert.StartsWith("metered/", report.FieldFrame, StringComparison.Ordinal);
        Assert.Equal(PngSignature, png[..8]);
    }

    private static Task<IntakeReport> LookAsync(string frames, int jobs = 2) =>
        Intake.RunAsync(frames, new CharacterisationOptions { Jobs = jobs }, null, TestContext.Current.CancellationToken);

    private static async Task<(bool IsRefused, IReadOnlyList<Finding> Findings)> CharacteriseAsync(string frames)
    {
        try
        {
            return (false, (await Characterisation.RunAsync(frames, new CharacterisationOptions { Jobs = 2 }, null, TestContext.Current.CancellationToken)).Findings);
        }
        catch (FrameSetRefusedException refused)
        {
            return (true, refused.Findings);
        }
    }

    private static IEnumerable<string> Told(IEnumerable<Finding> findings) => findings.Select(f => $"{f.Code} {f.Iso} {f.Channel} {f.Message}");

    private sealed class Rehearsed : IDisposable
    {
        private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;

        public Rehearsed(params string[] flaws) => Rehearsal.Write(
            Frames,
            new RehearsalOptions { IsoValues = [100], WidthPixels = 192, HeightPixels = 128, Flaws = [.. flaws.Select(FlawRequest.Parse)] },
            null,
            TestContext.Current.CancellationToken);

        public string Frames => Path.Combine(_folder, "frames");

        public void Dispose() => Directory.Delete(_folder, recursive: true);
    }
}
