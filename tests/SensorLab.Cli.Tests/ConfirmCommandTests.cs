using System.Text.Json;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary><c>confirm</c> on frames of simulated bodies: the profile's own, and ones that changed.</summary>
public sealed class ConfirmCommandTests(ConfirmedBody measured) : IClassFixture<ConfirmedBody>, IDisposable
{
    private static VirtualBody Body => ConfirmedBody.Body;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Confirm_TheSameBody_IsConsistent()
    {
        CommandRun run = await ConfirmAsync(Body, seed: 21);

        Assert.Equal(0, run.Status);
        Assert.StartsWith("Larkmoor LM-2, serial number 20417", run.Output, StringComparison.Ordinal);
        Assert.Contains("Consistent: the frames agree with this profile.", run.Output, StringComparison.Ordinal);
    }

    public static TheoryData<string> Changes => ["black", "noise", "gain", "gaps"];

    [Fact]
    public async Task Confirm_TheSameBodysFramesOnOneCard_AreToldByTheirPhotosites()
    {
        CommandRun run = await ConfirmAsync(Body, 24, ["--json"]);

        Assert.Equal(0, run.Status);
        using JsonDocument document = JsonDocument.Parse(run.Output);
        string[] checks = [.. document.RootElement.GetProperty("checks").EnumerateArray().Select(c => c.GetProperty("check").GetString()!)];
        Assert.All(["blackLevelDn", "readNoiseDn", "gainElectronPerDn"], name => Assert.Contains(name, checks));
        Assert.Contains(document.RootElement.GetProperty("notes").EnumerateArray(), n => n.GetString()!.Contains("are dark by the look of their photosites", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Changes))]
    public async Task Confirm_AChangedBodysFramesOnOneCard_AreDifferentByName(string change) => await ChangedAsync(change, []);

    [Theory]
    [MemberData(nameof(Changes))]
    public async Task Confirm_AChangedBody_IsDifferentByName(string change) => await ChangedAsync(change, ["metered", "dark"]);

    private async Task ChangedAsync(string change, string[] roles)
    {
        VirtualIso iso = Body.At(400);
        VirtualBody changed = change switch
        {
            "black" => Body with { BlackLevelDn = Body.BlackLevelDn + 2, DeclaredBlackDn = Body.BlackLevelDn },
            "noise" => Body with { IsoSettings = [iso with { ReadNoiseElectron = 1.1 * iso.ReadNoiseElectron }] },
            "gain" => Body with { IsoSettings = [iso with { GainElectronPerDn = 1.03 * iso.GainElectronPerDn, ReadNoiseElectron = 1.03 * iso.ReadNoiseElectron }] },
            _ => Body with { Firmware = "1.2", IsoSettings = [iso with { DigitalFactor = 1.1 }] },
        };

        CommandRun run = await ConfirmAsync(changed, 22, ["--json"], roles);

        Assert.Equal(5, run.Status);
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Equal("different", document.RootElement.GetProperty("verdict").GetString());
        string[] named = [.. document.RootElement.GetProperty("checks").EnumerateArray().Where(c => c.GetProperty("verdict").GetString() == "different").Select(c => c.GetProperty("check").GetString()!).Distinct()];
        Assert.Contains(change switch { "black" => "blackLevelDn", "noise" => "readNoiseDn", "gain" => "gainElectronPerDn", _ => "codeSteps" }, named);
    }

    [Fact]
    public async Task Confirm_AnotherBodyWithoutDarks_CannotTellAndAsks()
    {
        Shoot(Body with { SerialNumber = "20999", PatternSeed = 5 }, 23);
        Directory.Delete(Path.Combine(Job, "dark"), recursive: true);
        Directory.Delete(Path.Combine(Job, "metered"), recursive: true);

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "confirm", measured.Profile, Job, "--json");

        Assert.Equal(6, run.Status);
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.Equal("undecided", document.RootElement.GetProperty("verdict").GetString());
        Assert.NotEmpty(document.RootElement.GetProperty("wanted").EnumerateArray());
        JsonElement check = document.RootElement.GetProperty("checks")[0];
        Assert.Equal(["check", "iso", "channel", "expected", "found", "verdict", "message"], check.EnumerateObject().Select(p => p.Name));
    }

    [Fact]
    public async Task Confirm_EmptyFolder_IsRefused()
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "confirm", measured.Profile, _folder.Path);

        Assert.Equal(3, run.Status);
        Assert.Contains("frames-none", run.Error, StringComparison.Ordinal);
    }

    private Task<CommandRun> ConfirmAsync(VirtualBody body, ulong seed) => ConfirmAsync(body, seed, [], "metered", "dark");

    private Task<CommandRun> ConfirmAsync(VirtualBody body, ulong seed, string[] more, params string[] roles)
    {
        Shoot(body, seed);
        foreach (string folder in Directory.GetDirectories(Job).Where(f => !roles.Contains(Path.GetFileName(f))))
        {
            // What is left lies loose, as an assignment's frames do.
            Directory.Move(folder, Path.Combine(Job, "DCIM-" + Path.GetFileName(folder)));
        }

        return CommandRun.OfAsync(new Workbench(), ["confirm", measured.Profile, Job, .. more]);
    }

    private string Job => _folder.File("job");

    private void Shoot(VirtualBody body, ulong seed) => Rehearsal.Write(
        Job,
        new RehearsalOptions { Body = body with { Shooting = body.Shooting with { DarkFrames = 10, MeterReadings = 1, FramesPerReading = 5 } }, IsoValues = [400], Seed = seed },
        null,
        TestContext.Current.CancellationToken);
}
