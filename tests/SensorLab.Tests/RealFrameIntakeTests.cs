using SensorLab.Intakes;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Tests;

/// <summary>Real frames: what a careful person would say of them.</summary>
public sealed class RealFrameIntakeTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("sensorlab-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task RunAsync_FlatsOfALaboratory_ListsWhatIsWrongThoughNoFrameIsMetered()
    {
        IntakeReport report = await LookAsync(Shared("flats-ccd"));

        Assert.False(report.CanBeCharacterised);
        Assert.True(report.CanBeWithGreyFromSaturation);
        IntakeIso iso = Assert.Single(report.Isos);
        Assert.Equal(["dark", "bracket"], iso.Roles.Select(r => r.Role));
        Assert.Equal((5, 20), (iso.Roles[0].Frames, iso.Roles[1].Frames));
        string[] codes = Codes(report);
        Assert.Contains(FindingCode.MeteredMissing, codes);
        Assert.Contains(FindingCode.PairMissing, codes);
        Assert.Contains(FindingCode.LevelsTooFew, codes);
        Assert.Contains(FindingCode.BlackDrift, codes);
        Assert.Contains(FindingCode.PixelsHot, codes);
    }

    [Fact]
    public async Task RunAsync_EverydayFramesOfTwoBodies_AreRefusedWithEveryReason()
    {
        string raw = Shared("raw");
        Copy("bracket", Directory.GetFiles(Path.Combine(raw, "canon_powershot_crw"), "*.CRW"));
        Copy("dark", Directory.GetFiles(Path.Combine(raw, "canon_eos30d_cr2"), "*.CR2"));

        IntakeReport report = await LookAsync(_folder);
        SkipWithoutDecoder(report);

        Assert.False(report.CanBeCharacterised);
        Assert.False(report.CanBeWithGreyFromSaturation);
        Assert.Equal(6, report.RawFiles);
        string[] codes = Codes(report);
        Assert.Contains(FindingCode.BodyMixed, codes);
        Assert.Contains(FindingCode.MeteredMissing, codes);
        Assert.Contains(FindingCode.DarkMissing, codes);
        Assert.Contains(FindingCode.PairMissing, codes);
        Assert.All(report.Findings, f => Assert.NotEmpty(f.Remedy));
    }

    [Fact]
    public async Task RunAsync_EverydayFramesOfOneBody_LackDarkAndMeteredFrames()
    {
        Copy("bracket", Directory.GetFiles(Path.Combine(Shared("raw"), "canon_powershot_crw"), "*.CRW"));

        IntakeReport report = await LookAsync(_folder);
        SkipWithoutDecoder(report);

        Assert.False(report.CanBeCharacterised);
        string[] codes = Codes(report);
        Assert.Contains(FindingCode.MeteredMissing, codes);
        Assert.Contains(FindingCode.DarkMissing, codes);
        Assert.DoesNotContain(FindingCode.BodyMixed, codes);
    }

    [Fact]
    public async Task RunAsync_OneFrameOfAnotherBodyInABracket_IsNamedAndLendsTheSetNothing()
    {
        Copy("bracket", Directory.GetFiles(Path.Combine(Shared("raw"), "canon_powershot_crw"), "*.CRW"));
        Copy("bracket", Directory.GetFiles(Path.Combine(Shared("raw"), "canon_eos30d_cr2"), "*.CR2"));

        IntakeReport report = await LookAsync(_folder);
        SkipWithoutDecoder(report);

        Assert.False(report.CanBeCharacterised);
        Assert.Equal(
            [FindingCode.BodyMixed, FindingCode.DarkMissing, FindingCode.FrameSizeDiffers, FindingCode.LevelsTooFew, FindingCode.MeteredMissing, FindingCode.PairMissing],
            Codes(report).Order(StringComparer.Ordinal));
        Assert.All(
            report.Findings.Where(f => f.Code is FindingCode.BodyMixed or FindingCode.FrameSizeDiffers),
            f => Assert.EndsWith(".CR2", Assert.Single(f.Frames), StringComparison.Ordinal));

        // Only the other body wrote its serial number and firmware: they must not stand beside this one's name.
        Assert.Equal(report.RawFiles, report.LeftOut.Count);
        Assert.NotNull(report.Body!.Model);
        Assert.Null(report.Body.SerialNumber);
        Assert.Null(report.Body.Firmware);
        Assert.Equal([50, 640], report.Isos.Select(i => i.Iso));
        Assert.Equal(5, report.Isos[0].Roles.Single().Frames);
    }

    private void Copy(string role, string[] files)
    {
        Directory.CreateDirectory(Path.Combine(_folder, role));
        foreach (string file in files)
        {
            File.Copy(file, Path.Combine(_folder, role, Path.GetFileName(file)));
        }
    }

    private static void SkipWithoutDecoder(IntakeReport report) =>
        Assert.SkipWhen(report.Findings.Any(f => f.Remedy.Contains("libraw", StringComparison.OrdinalIgnoreCase)), "LibRaw is not here.");

    private static string[] Codes(IntakeReport report) => [.. report.Findings.Select(f => f.Code).Distinct()];

    private static Task<IntakeReport> LookAsync(string frames) =>
        Intake.RunAsync(frames, new CharacterisationOptions(), null, TestContext.Current.CancellationToken);

    private static string Shared(string name)
    {
        string folder = Path.Combine(Repository.Root, "..", "shared", "real-data", name);
        Assert.SkipUnless(Directory.Exists(folder), "The real frames are not here.");
        return folder;
    }
}
