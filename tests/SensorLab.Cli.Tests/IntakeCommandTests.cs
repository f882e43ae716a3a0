using System.Text.Json;
using SensorLab.Frames;
using SensorLab.Imaging;
using SensorLab.Intakes;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

public sealed class IntakeCommandTests(RehearsedSet rehearsed) : IClassFixture<RehearsedSet>, IDisposable
{
    private const int Columns = 80;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Intake_SoundSet_TellsItInEightyPlainColumns()
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "intake", rehearsed.Frames);

        Assert.Equal(0, run.Status);
        Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= Columns, line));
        Assert.DoesNotContain('\u001b', run.Output);
        Assert.Contains("Larkmoor LM-2", run.Output, StringComparison.Ordinal);
        Assert.Contains("bracket", run.Output, StringComparison.Ordinal);
        Assert.Contains("This set can be characterised.", run.Output, StringComparison.Ordinal);
        Assert.Contains("Reading frames:", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Intake_Json_IsOneDocument()
    {
        CommandRun run = await CommandRun.OfAsync(new Workbench(), "intake", rehearsed.Frames, "--json");

        using var document = JsonDocument.Parse(run.Output);
        Assert.True(document.RootElement.GetProperty("canBeCharacterised").GetBoolean());
        Assert.Equal(400, document.RootElement.GetProperty("isos")[0].GetProperty("iso").GetInt32());
        Assert.Equal(JsonValueKind.Array, document.RootElement.GetProperty("findings").ValueKind);
    }

    [Fact]
    public async Task Intake_RefusedSet_EndsInThreeAndStillTellsTheFrames()
    {
        CommandRun run = await CommandRun.OfAsync(Giving(Refused()), "intake", _folder.Path);

        Assert.Equal(3, run.Status);
        Assert.Contains("refused: body-mixed", run.Error, StringComparison.Ordinal);
        Assert.Contains("ISO 100: missing dark frames.", run.Output, StringComparison.Ordinal);
        Assert.Contains("All frames: refused for body-mixed.", run.Output, StringComparison.Ordinal);
        Assert.Contains("This set cannot be characterised.", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Intake_RefusedSetAsJson_HoldsTheFindingsAlone()
    {
        CommandRun run = await CommandRun.OfAsync(Giving(Refused()), "intake", _folder.Path, "--json");

        Assert.Equal(3, run.Status);
        using var document = JsonDocument.Parse(run.Output);
        Assert.Equal(["findings"], document.RootElement.EnumerateObject().Select(p => p.Name));
        Assert.Equal("body-mixed", document.RootElement.GetProperty("findings")[0].GetProperty("code").GetString());
    }

    [Fact]
    public async Task Intake_RefusedForItsMeteredFrames_NamesTheWayOut()
    {
        CommandRun run = await CommandRun.OfAsync(Giving(Refused() with { CanBeWithGreyFromSaturation = true }), "intake", _folder.Path);

        Assert.Contains("--grey saturation", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Intake_Thumbnail_IsWritten()
    {
        string picture = _folder.File("field.png");

        CommandRun run = await CommandRun.OfAsync(new Workbench(), "intake", rehearsed.Frames, "--thumbnail", picture, "--spot", "100,80");

        Assert.Equal(0, run.Status);
        Assert.Equal("PNG"u8.ToArray(), (await File.ReadAllBytesAsync(picture, TestContext.Current.CancellationToken))[1..4]);
        Assert.Contains($"Picture of the field: {picture}", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Intake_ThumbnailOfARefusedSet_IsNotWritten()
    {
        await CommandRun.OfAsync(Giving(Refused()), "intake", _folder.Path, "--thumbnail", _folder.File("field.png"));

        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    [Fact]
    public async Task Intake_ImagingLibraryMissing_SaysHowToInstallItBeforeAnyWork()
    {
        Workbench bare = Giving(Refused()) with
        {
            RequireImaging = () => throw new ImagingLibraryMissingException(),
            LookOver = (_, _, _, _) => throw new InvalidOperationException("Not before the library is known to be here."),
        };

        CommandRun run = await CommandRun.OfAsync(bare, "intake", _folder.Path, "--thumbnail", _folder.File("field.png"));

        Assert.Equal(4, run.Status);
        Assert.Contains(new ImagingLibraryMissingException().Remedy, run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Intake_FieldFrameThatBroke_LeavesNoHalfPicture()
    {
        Workbench broken = Giving(Refused() with { FieldFrame = "metered/P0001.dng" }) with { DrawField = (_, _, _) => throw new MalformedFileException("It is cut short.") };

        CommandRun run = await CommandRun.OfAsync(broken, "intake", _folder.Path, "--thumbnail", _folder.File("field.png"));

        Assert.Equal(4, run.Status);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    [Theory]
    [InlineData("no-such-folder", 4, "There is no no-such-folder")]
    [InlineData("--regoin", 2, "is not an option of this command")]
    public async Task Intake_WrongPlace_SaysSo(string place, int status, string sentence)
    {
        CommandRun run = await CommandRun.OfAsync(Giving(Refused()), "intake", place);

        Assert.Equal(status, run.Status);
        Assert.Contains(sentence, run.Error, StringComparison.Ordinal);
    }

    private static Workbench Giving(IntakeReport report) => new()
    {
        LookOver = (_, _, _, _) => Task.FromResult(report),
        RequireImaging = () => { },
        DrawField = (_, _, _) => [1, 2, 3],
    };

    private static IntakeReport Refused() => new()
    {
        CanBeCharacterised = false,
        Body = new BodyIdentity("Larkmoor", "LM-2", null, null),
        Isos =
        [
            new IntakeIso { Iso = 100, Roles = [new IntakeRole("bracket", 4, 2, 0.01, 2)], Missing = ["dark frames"], CanBeCharacterised = false },
        ],
        RawFiles = 4,
        LeftOut = ["bracket/P0001.dng"],
        FilesIgnored = 1,
        Findings = [new Finding { Code = FindingCode.BodyMixed, Severity = FindingSeverity.Refusal, Message = "Two bodies.", Remedy = "Keep one." }],
    };
}
