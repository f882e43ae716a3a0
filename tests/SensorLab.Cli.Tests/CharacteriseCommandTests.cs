using System.Globalization;
using System.Text.Json;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Reports;
using SensorLab.Sets;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class CharacteriseCommandTests : IDisposable
{
    private static readonly Finding Refusal = new()
    {
        Code = FindingCode.BodyMixed,
        Severity = FindingSeverity.Refusal,
        Message = "Two bodies.",
        Remedy = "Keep one.",
    };

    private readonly TemporaryFolder _folder = new();

    private string Out => _folder.File("p.json");

    public static TheoryData<Exception, int, string> Faults => new()
    {
        { new FrameTableException(3, "The column \"colour\" is not known.", "Rename it."), 2, "frames.csv, line 3: The column \"colour\" is not known. Rename it." },
        { new CharacterisationOptionsException("--region", "It lies outside the sensor.", "Move it."), 2, "--region: It lies outside the sensor. Move it." },
        { new FrameSetRefusedException([Refusal]), 3, "refused: body-mixed" },
        { new UnsupportedFileException("It is lossy.", "Record uncompressed.", isUnsuitable: true), 4, "It is lossy. Record uncompressed." },
        { new MalformedFileException("It is cut short."), 4, "It is cut short." },
        { new IOException("The disk is full."), 4, "The disk is full." },
        { new UnauthorizedAccessException("Not allowed."), 4, "Not allowed." },
        { new FontsMissingException(), 4, "fonts-dejavu-core" },
        { new OperationCanceledException(), 130, "cancelled" },
        { new AggregateException(new IOException("x"), new OperationCanceledException()), 130, "cancelled" },
        { new AggregateException(new AggregateException(new IOException("Cut off."))), 4, "Cut off." },
        { new InvalidOperationException("It\n   at Broke"), 1, "(InvalidOperationException: It at Broke). Please report it" },
    };

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Faults))]
    public async Task Characterise_Fault_HasItsStatusAndSentenceAndWritesNothing(Exception fault, int status, string sentence)
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Throwing(fault), "characterise", _folder.Path, "--out", Out);

        Assert.Equal(status, run.Status);
        Assert.Contains(sentence, run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    [Fact]
    public async Task Characterise_Fault_LeavesAnEarlierProfileAlone()
    {
        await File.WriteAllTextAsync(Out, "earlier", TestContext.Current.CancellationToken);

        await CommandRun.OfAsync(CommandRun.Throwing(new FrameSetRefusedException([Refusal])), "characterise", _folder.Path, "--out", Out);

        Assert.Equal("earlier", await File.ReadAllTextAsync(Out, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Characterise_Done_WritesProfileTableAndFindings()
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "characterise", _folder.Path, "--out", Out);

        Assert.Equal(0, run.Status);
        Assert.Equal(SampleProfiles.ThreeIsos().IsoProfiles.Count, SensorProfileReader.ReadFile(Out).IsoProfiles.Count);
        Assert.Contains("   400  +3.20 ±0.01", run.Output, StringComparison.Ordinal);
        Assert.Contains($"Sensor profile: {Out}", run.Output, StringComparison.Ordinal);
        Assert.Contains("warning: light-drift, ISO 100, channel G1", run.Error, StringComparison.Ordinal);
        Assert.Equal(10, run.Error.Split('\n').Count(l => l.StartsWith("Measuring frames: ", StringComparison.Ordinal)));
        Assert.Contains("Measuring frames: 30 of 30", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_Json_WritesTheProfilesBytesToStandardOutput()
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "characterise", _folder.Path, "--out", Out, "--json");

        Assert.Equal(await File.ReadAllTextAsync(Out, TestContext.Current.CancellationToken), run.Output);
    }

    [Fact]
    public async Task Characterise_JsonOfARefusal_IsItsFindingsAsAProfileHoldsThem()
    {
        IReadOnlyList<Finding> findings = SampleProfiles.ThreeIsos().Findings;

        CommandRun run = await CommandRun.OfAsync(CommandRun.Throwing(new FrameSetRefusedException(findings)), "characterise", _folder.Path, "--out", Out, "--json");

        Assert.Equal(3, run.Status);
        using JsonDocument refusal = JsonDocument.Parse(run.Output);
        using var bytes = new MemoryStream();
        SensorProfileWriter.Write(SampleProfiles.ThreeIsos(), bytes);
        using JsonDocument profile = JsonDocument.Parse(bytes.ToArray());
        Assert.Equal(["findings"], refusal.RootElement.EnumerateObject().Select(p => p.Name));
        Assert.True(JsonElement.DeepEquals(profile.RootElement.GetProperty("findings"), refusal.RootElement.GetProperty("findings")));
    }

    [Fact]
    public async Task Characterise_Report_IsWrittenAndNamed()
    {
        string charts = _folder.File("report");

        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "characterise", _folder.Path, "--out", Out, "--report", charts);

        Assert.True(Directory.Exists(charts));
        Assert.Contains($"Report: {Path.Combine(charts, "report.html")}", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_AllOptions_ReachTheLibrary()
    {
        CharacterisationOptions? seen = null;
        Workbench workbench = CommandRun.Sample with
        {
            Characterise = (_, options, _, _) =>
            {
                seen = options;
                return Task.FromResult(SampleProfiles.ThreeIsos());
            },
        };

        await CommandRun.OfAsync(
            workbench, "characterise", _folder.Path, "--out", Out, "--delivery", "2400x1600", "--snr", "7", "--snr", "3.5", "--snr", "7",
            "--grey", "saturation", "--meter-step", "1/2", "--region", "10,20,300,200", "--spot", "5,6", "--jobs", "3");

        Assert.NotNull(seen);
        Assert.Equal((new Delivery(2400, 1600), GreyMethod.Saturation, 0.5), (seen.Delivery, seen.Grey, seen.MeterStepEv));
        Assert.Equal([7, 3.5], seen.SnrCriteria);
        Assert.Equal((new MeasuredRegion(10, 20, 300, 200), (5, 6), 3), (seen.Region, seen.Spot!.Value, seen.Jobs));
    }

    [Fact]
    public async Task Characterise_NoOptions_MeansTheLibrarysDefaults()
    {
        CharacterisationOptions? seen = null;
        Workbench workbench = CommandRun.Sample with
        {
            Characterise = (_, options, _, _) =>
            {
                seen = options;
                return Task.FromResult(SampleProfiles.ThreeIsos());
            },
        };

        await CommandRun.OfAsync(workbench, "characterise", _folder.Path, "--out", Out);

        Assert.NotNull(seen);
        Assert.Empty(seen.SnrCriteria);
        Assert.Equal(new CharacterisationOptions() with { SnrCriteria = seen.SnrCriteria }, seen);
    }

    [Theory]
    [InlineData("--delivery", "2400")]
    [InlineData("--delivery", "0x100")]
    [InlineData("--delivery", "-5x100")]
    [InlineData("--snr", "0")]
    [InlineData("--snr", "-7")]
    [InlineData("--snr", "NaN")]
    [InlineData("--snr", "Infinity")]
    [InlineData("--grey", "card")]
    [InlineData("--meter-step", "-1/3")]
    [InlineData("--meter-step", "1/0")]
    [InlineData("--region", "1,2,3")]
    [InlineData("--region", "1,2,3,0")]
    [InlineData("--region", "-1,2,3,4")]
    [InlineData("--spot", "-1,2")]
    [InlineData("--jobs", "0")]
    [InlineData("--jobs", "many")]
    public async Task Characterise_WordThatIsOff_IsAUsageErrorThatNamesIt(string option, string word)
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "characterise", _folder.Path, "--out", Out, option, word);

        Assert.Equal(2, run.Status);
        Assert.Contains(word, run.Error, StringComparison.Ordinal);
        Assert.Contains("characterise --help", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Theory]
    [InlineData("none/p.json", "there is no folder")]
    [InlineData("", "is a folder")]
    [InlineData("file/p.json", "there is no folder")]
    public async Task Characterise_OutputThatCannotBe_IsSaidBeforeTheWork(string name, string reason)
    {
        await File.WriteAllTextAsync(_folder.File("file"), "x", TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(
            CommandRun.Throwing(new InvalidOperationException("The work began.")), "characterise", _folder.Path, "--out", _folder.File(name));

        Assert.Equal(4, run.Status);
        Assert.Contains(reason, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_ReportThatIsAFile_IsSaidBeforeTheWork()
    {
        await File.WriteAllTextAsync(_folder.File("file"), "x", TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(
            CommandRun.Throwing(new InvalidOperationException("The work began.")), "characterise", _folder.Path, "--out", Out, "--report", _folder.File("file"));

        Assert.Equal(4, run.Status);
        Assert.Contains("is a file", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_OutAndReportInOnePlace_IsAUsageError() =>
        Assert.Equal(2, (await CommandRun.OfAsync(CommandRun.Sample, "characterise", _folder.Path, "--out", Out, "--report", Out)).Status);

    [Theory]
    [InlineData("none")]
    [InlineData("@none")]
    public async Task Characterise_NotAFolder_HasItsStatus(string frames)
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "characterise", frames, "--out", Out);

        Assert.Equal(4, run.Status);
        Assert.Contains($"There is no {frames}", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_Truth_StandsBesideTheFigures()
    {
        double snr10 = SampleProfiles.ThreeIsos().IsoProfiles[1].Latitude.BelowEv[2].PerPixel!.Value!.Value;
        string truth = string.Create(CultureInfo.InvariantCulture, $$"""[{"iso": 400, "aboveEv": 3.3, "belowEv": {"snr10": {{snr10}}}, "note": "x"}]""");
        await File.WriteAllTextAsync(_folder.File("t.json"), truth, TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "characterise", _folder.Path, "--out", Out, "--truth", _folder.File("t.json"));

        string[] lines = run.Output.Split('\n');
        Assert.Matches("^   400  clips, EV from grey +3\\.200 ±0\\.0078 +3\\.300  no$", Assert.Single(lines, l => l.Contains("clips, EV", StringComparison.Ordinal)));
        Assert.Matches("^        SNR 10, EV from grey +.*  yes$", Assert.Single(lines, l => l.Contains("SNR 10, EV from grey", StringComparison.Ordinal)));
        Assert.All(lines.Where(l => !l.Contains(_folder.Path, StringComparison.Ordinal)), l => Assert.InRange(l.Length, 0, 80));
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("[{\"aboveEv\": 3}]")]
    [InlineData("[{\"iso\": \"x\"}]")]
    [InlineData("[1]")]
    [InlineData("[")]
    public async Task Characterise_TruthThatIsNone_IsSaidBeforeTheWork(string text)
    {
        await File.WriteAllTextAsync(_folder.File("t.json"), text, TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(
            CommandRun.Throwing(new InvalidOperationException("The work began.")), "characterise", _folder.Path, "--out", Out, "--truth", _folder.File("t.json"));

        Assert.Equal(4, run.Status);
        Assert.Contains("is not a rehearsal's truth", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_CancelledWhileMeasuring_WritesNothing()
    {
        using var stop = new CancellationTokenSource();
        Workbench workbench = CommandRun.Sample with
        {
            Characterise = async (_, _, _, cancellation) =>
            {
                await stop.CancelAsync();
                cancellation.ThrowIfCancellationRequested();
                return SampleProfiles.ThreeIsos();
            },
        };
        using var error = new StringWriter();

        int status = await new CommandLine(workbench, new Terminal(TextWriter.Null, error, null)).RunAsync(["characterise", _folder.Path, "--out", Out], stop.Token);

        Assert.Equal(130, status);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }
}
