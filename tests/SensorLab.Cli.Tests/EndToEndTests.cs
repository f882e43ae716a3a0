using System.Text.Json;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>From a folder of frames to a sensor profile, through the library itself.</summary>
public sealed class EndToEndTests(RehearsedSet set) : IClassFixture<RehearsedSet>, IDisposable
{
    /// <summary>Goal of the measurement model, section 11, for <c>above</c> and <c>below</c>.</summary>
    private const double LatitudeToleranceEv = 0.03;

    /// <summary>Goals of the main job: gain, read noise and saturation on rehearsed sets.</summary>
    private const double GainTolerance = 0.01;
    private const double ReadNoiseTolerance = 0.03;
    private const double SaturationTolerance = 0.005;

    private readonly TemporaryFolder _folder = new();

    private string Out => _folder.File("p.json");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Characterise_RehearsedSet_MeetsItsTruth()
    {
        CommandRun run = await CharacteriseAsync(set.Frames, "--report", _folder.File("report"), "--truth", set.Truth);

        Assert.Equal(0, run.Status);
        IReadOnlyDictionary<string, double> truth = Assert.Single(TruthFile.Read(set.Truth)).Figures;
        IsoProfile iso = Assert.Single(SensorProfileReader.ReadFile(Out).IsoProfiles);
        ChannelProfile green = iso.Channels.Single(c => c.Name == "G1");
        Assert.Equal(truth["aboveEv"], iso.Latitude.AboveEv!.Value!.Value, LatitudeToleranceEv);
        Assert.Equal(truth["snr40"], iso.Latitude.BelowEv.Single(e => e.Snr == 40).PerPixel!.Value!.Value, LatitudeToleranceEv);
        Assert.Equal(truth["snr10"], iso.Latitude.BelowEv.Single(e => e.Snr == 10).PerPixel!.Value!.Value, LatitudeToleranceEv);
        Assert.Equal(1, green.GainElectronPerDn!.Value!.Value / truth["gainElectronPerDn"], GainTolerance);
        Assert.Equal(1, green.ReadNoiseElectron!.Value!.Value / truth["readNoiseElectron"], ReadNoiseTolerance);
        Assert.Equal(1, green.SaturationDn!.Value!.Value / truth["saturationDn"], SaturationTolerance);
        Assert.True(File.Exists(Path.Combine(_folder.File("report"), "charts", "latitude-ruler.svg")));
        Assert.Contains("   400  clips, EV from grey", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_AnyNumberOfJobs_GivesTheSameBytes()
    {
        string one = (await CharacteriseAsync(set.Frames, "--jobs", "1", "--json")).Output;
        string four = (await CharacteriseAsync(set.Frames, "--jobs", "4", "--json")).Output;

        Assert.NotEmpty(one);
        Assert.Equal(one, four);
    }

    [Theory]
    [InlineData("body-mixed")]
    [InlineData("firmware-mixed")]
    [InlineData("mode-mixed")]
    [InlineData("lens-setting-mixed")]
    [InlineData("dark-missing")]
    [InlineData("metered-missing")]
    [InlineData("frames-none")]
    public async Task Characterise_SetThatGivesNoFigures_IsRefusedByCode(string flaw)
    {
        string frames = _folder.File("flawed");
        await CommandRun.OfAsync(new Workbench(), "rehearse", frames, "--iso", "100", "--pixels", "64x48", "--flaw", flaw);
        Directory.CreateDirectory(frames);

        CommandRun run = await CharacteriseAsync(frames, "--json");

        Assert.Equal(3, run.Status);
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Contains(
            document.RootElement.GetProperty("findings").EnumerateArray(),
            f => f.GetProperty("code").GetString() == flaw && f.GetProperty("severity").GetString() == "refusal");
        Assert.Contains($"refused: {flaw}", run.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Out));
    }

    [Theory]
    [InlineData("--region", "0,0,5000,100")]
    [InlineData("--region", "0,0,4,4")]
    [InlineData("--region", "999999,999999,999999,999999")]
    [InlineData("--spot", "400,10")]
    public async Task Characterise_PlaceOutsideTheSensor_IsAUsageError(string option, string word)
    {
        CommandRun run = await CharacteriseAsync(set.Frames, option, word);

        Assert.Equal(2, run.Status);
        Assert.Contains($"sensorlab: {option}: The ", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_TableWithAnUnknownColumn_IsAUsageErrorThatNamesIt()
    {
        string frames = Directory.CreateDirectory(_folder.File("frames")).FullName;
        await File.WriteAllTextAsync(Path.Combine(frames, "frames.csv"), "file,colour\na.dng,red\n", TestContext.Current.CancellationToken);

        CommandRun run = await CharacteriseAsync(frames);

        Assert.Equal(2, run.Status);
        Assert.Contains("frames.csv, line 1: The column \"colour\" is not known.", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_DamagedFrames_AreNamedAndTheRestGoesOn()
    {
        string frames = _folder.File("frames");
        await CommandRun.OfAsync(new Workbench(), "rehearse", frames, "--iso", "100", "--pixels", "160x120", "--flaw", "frame-unreadable=2");

        CommandRun run = await CharacteriseAsync(frames);

        Assert.Equal(0, run.Status);
        Assert.Equal(2, SensorProfileReader.ReadFile(Out).Findings.Count(f => f.Code == FindingCode.FrameUnreadable));
    }

    private Task<CommandRun> CharacteriseAsync(string frames, params string[] words) =>
        CommandRun.OfAsync(new Workbench(), ["characterise", frames, "--out", Out, .. words]);
}
