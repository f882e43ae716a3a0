using System.Text.Json.Nodes;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class SettingsCommandTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private string SettingsFile => _folder.File("config/settings.json");

    private Workbench Workbench => CommandRun.Sample with { SettingsPath = SettingsFile };

    [Fact]
    public async Task Settings_SetReadAndTakenOut_KeepsTheWord()
    {
        Assert.Equal((0, "1/2\n"), Told(await CommandRun.OfAsync(Workbench, "settings", "meter-step", "1/2")));
        Assert.Equal((0, "1/2\n"), Told(await CommandRun.OfAsync(Workbench, "settings", "meter-step")));
        Assert.Equal("1/2", (string?)JsonNode.Parse(await File.ReadAllTextAsync(SettingsFile, TestContext.Current.CancellationToken))!["meter-step"]);
        Assert.Contains("meter-step  1/2", (await CommandRun.OfAsync(Workbench, "settings")).Output, StringComparison.Ordinal);
        Assert.Equal((0, "not set\n"), Told(await CommandRun.OfAsync(Workbench, "settings", "meter-step", "none")));
    }

    [Theory]
    [InlineData("mains", "55")]
    [InlineData("delivery", "wide")]
    [InlineData("shutter", "30..1/8000")]
    [InlineData("meter-step", "0")]
    [InlineData("metre-step", "1/3")]
    public async Task Settings_WordThatIsOff_IsAUsageErrorAndKeepsNothing(string name, string value)
    {
        CommandRun run = await CommandRun.OfAsync(Workbench, "settings", name, value);

        Assert.Equal(2, run.Status);
        Assert.False(File.Exists(SettingsFile));
    }

    [Theory]
    [InlineData("{\"mains\": \"55\"}")]
    [InlineData("{\"mains\": 50}")]
    [InlineData("{\"key\": \"a\\u0000b\"}")]
    [InlineData("{\"shelf\": \"\"}")]
    [InlineData("[]")]
    [InlineData("{")]
    public async Task Settings_FileThatIsOff_IsSaidAndNotGuessed(string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(SettingsFile)!);
        await File.WriteAllTextAsync(SettingsFile, text, TestContext.Current.CancellationToken);

        CommandRun run = await CommandRun.OfAsync(Workbench, "plan", "--protocol", "evening", "--out", _folder.File("plan"));

        Assert.Equal(4, run.Status);
        Assert.Contains("settings.json cannot be used", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Characterise_FolderOfFrames_TakesTheSettingsAndSaysSo()
    {
        CharacterisationOptions? asked = null;
        Workbench workbench = Workbench with
        {
            Characterise = (_, options, _, _) =>
            {
                asked = options;
                return Task.FromResult(SampleProfiles.ThreeIsos());
            },
        };
        Directory.CreateDirectory(_folder.File("set"));
        await CommandRun.OfAsync(Workbench, "settings", "meter-step", "1/2");
        await CommandRun.OfAsync(Workbench, "settings", "delivery", "2400x1600");

        CommandRun run = await CommandRun.OfAsync(workbench, "characterise", _folder.File("set"), "--out", _folder.File("p.json"));

        Assert.Equal((0, 0.5, new Delivery(2400, 1600)), (run.Status, asked!.MeterStepEv, asked.Delivery));
        Assert.Contains("sensorlab: from your settings: meter-step 1/2, delivery 2400x1600", run.Error, StringComparison.Ordinal);

        await CommandRun.OfAsync(workbench, "characterise", _folder.File("set"), "--out", _folder.File("p.json"), "--meter-step", "1/3", "--delivery", "300x200");
        Assert.Equal((1.0 / 3, new Delivery(300, 200)), (asked.MeterStepEv, asked.Delivery));
    }

    [Fact]
    public async Task Plan_SettingsOfMainsAndShutter_AreTaken()
    {
        await CommandRun.OfAsync(Workbench, "settings", "mains", "60");
        await CommandRun.OfAsync(Workbench, "settings", "shutter", "1/500..1");
        ShotPlan? planned = null;
        Workbench workbench = Workbench with
        {
            PlanFiles = plan =>
            {
                planned = plan;
                return [];
            },
        };

        CommandRun run = await CommandRun.OfAsync(workbench, "plan", "--protocol", "evening", "--out", _folder.File("plan"));

        Assert.Equal(0, run.Status);
        Assert.Contains("sensorlab: from your settings: shutter 1/500..1, mains 60", run.Error, StringComparison.Ordinal);
        Assert.All(planned!.Steps.Where(s => s.Frames > 0), step => Assert.InRange(step.ExposureSeconds, 1 / 600.0, 1.01));
    }

    private static (int Status, string Output) Told(CommandRun run) => (run.Status, run.Output);
}
