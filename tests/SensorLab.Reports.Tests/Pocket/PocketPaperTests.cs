using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Pocket;

public sealed partial class PocketPaperTests
{
    private const double PointsPerMm = 72 / 25.4;

    // The canvas writes a page's size in whole points: a third of a millimetre.
    private const double WholePoint = 1;

    public static TheoryData<string> States => PocketSheets.States;

    [Theory]
    [MemberData(nameof(States))]
    public async Task Paper_EveryFigure_IsTheSheetsAndAllAreThere(string state)
    {
        PocketSheet sheet = PocketSheet.Of(PocketSheets.Profiles(state));
        string text = await TextAsync(PocketWriter.Pdf(PocketSheets.Profiles(state), TestContext.Current.CancellationToken));
        IReadOnlyList<Printed> printed = PrintedFigures.In(text);
        Figure[] owed = [.. sheet.Bodies.SelectMany(FiguresOf).OfType<Figure>()];

        Assert.NotEmpty(owed);
        Assert.All(printed, p => Assert.True(owed.Any(f => PrintedFigures.Matches(p, f)), $"{p.Text} is no figure of the sheet."));
        Assert.All(owed.Where(f => f.Value is not null), f => Assert.True(printed.Any(p => PrintedFigures.Matches(p, f)), $"{f.Value} is printed nowhere."));
        Assert.All(owed.Select(f => f.AtLeast).OfType<double>().Where(b => b < 50), bound =>
            Assert.Contains(Bound().Matches(text).Select(m => Number(m.Groups[1].Value)), p => Math.Abs(p - bound) <= 0.005 + 1e-9));
    }

    // What the sheet prints is what the profile says: the ends' values are the profile's own, the meter only widens them.
    [Fact]
    public void Sheet_Ends_AreTheProfiles()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        foreach ((IsoProfile iso, PocketIso shown) in profile.IsoProfiles.Zip(PocketSheet.Of([profile]).Bodies[0].Isos))
        {
            Assert.Equal(iso.Latitude.AboveEv!.Value, shown.Lights[0].AboveEv!.Value);
            Assert.Equal(-iso.Latitude.BelowEv.Single(e => e.Snr == 10).PerPixel!.Value, shown.DarkestTexturedEv!.Value);
            Assert.Equal(iso.Previews.Select(p => p.ClipEv!.Value), shown.Looks.Select(l => l.BlinksFromEv!.Value));
        }
    }

    [Fact]
    public async Task Paper_EveryBody_IsNamedWithItsStateAndCriterionOnPageAndCard()
    {
        string text = Regex.Replace(await TextAsync(PocketWriter.Pdf(PocketSheets.Profiles("team"), TestContext.Current.CancellationToken)), @"\s+", " ");

        Assert.All(
            ["Larkmoor LM-2 no. 20417 · firmware 1.1 · 14 bit, lossless, mechanical shutter · 2026-04-18", "Not the body in hand: a colleague's.", "No serial number tells", "Body not named by its frames", "Texture: SNR 10"],
            part => Assert.Contains(part, text, StringComparison.Ordinal));
        Assert.Contains("Larkmoor LM-2 · no. 20433", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Paper_Pages_AreA5()
    {
        string path = await WriteAsync(PocketWriter.Pdf(PocketSheets.Profiles("team"), TestContext.Current.CancellationToken));
        try
        {
            string facts = await RunAsync("/usr/bin/pdfinfo", "-f", "1", "-l", "99", path);
            MatchCollection sizes = PageSize().Matches(facts);

            Assert.NotEmpty(sizes);
            Assert.All(sizes.AsEnumerable(), size =>
            {
                Assert.Equal(148 * PointsPerMm, Number(size.Groups[1].Value), WholePoint);
                Assert.Equal(210 * PointsPerMm, Number(size.Groups[2].Value), WholePoint);
            });
        }
        finally
        {
            File.Delete(path);
        }
    }

    [Fact]
    public void Paper_SameProfiles_GiveTheSameBytes() => Assert.Equal(
        PocketWriter.Pdf(PocketSheets.Profiles("team"), TestContext.Current.CancellationToken),
        PocketWriter.Pdf(PocketSheets.Profiles("team"), TestContext.Current.CancellationToken));

    [Fact]
    public void Paper_Cancelled_Throws() =>
        Assert.Throws<OperationCanceledException>(() => PocketWriter.Pdf(PocketSheets.Profiles("one body"), new CancellationToken(canceled: true)));

    private static IEnumerable<Figure?> FiguresOf(PocketBody body) =>
    [
        .. body.Isos.SelectMany(iso => iso.Lights).SelectMany(light => new[] { light.AboveEv, light.BrightestTexturedEv }),
        .. body.Isos.SelectMany(iso => new[] { iso.DarkestCleanEv, iso.DarkestTexturedEv, iso.DarkestToneEv }),
        .. body.Isos.SelectMany(iso => iso.Looks).SelectMany(look => new[] { look.BlinksFromEv, look.HiddenHeadroomEv, look.HighlightWarningPercent }),
        .. body.DialIn.Select(dial => dial.CompensationEv),
    ];

    private static async Task<string> TextAsync(byte[] pdf)
    {
        string path = await WriteAsync(pdf);
        try
        {
            return await RunAsync("/usr/bin/pdftotext", "-layout", path, "-");
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static async Task<string> WriteAsync(byte[] pdf)
    {
        string path = Path.Combine(Path.GetTempPath(), $"sensorlab-{Guid.NewGuid():N}.pdf");
        await File.WriteAllBytesAsync(path, pdf, TestContext.Current.CancellationToken);
        return path;
    }

    private static async Task<string> RunAsync(string program, params string[] words)
    {
        Assert.SkipUnless(File.Exists(program), $"There is no {program}: bash src/install.sh --tests installs it.");
        using Process reader = Process.Start(new ProcessStartInfo(program, words) { RedirectStandardOutput = true, StandardOutputEncoding = Encoding.UTF8 })!;
        return await reader.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
    }

    private static double Number(string digits) => double.Parse(digits.Replace('−', '-'), CultureInfo.InvariantCulture);

    [GeneratedRegex(@"at least ([+−]?\d+\.\d+)")]
    private static partial Regex Bound();

    [GeneratedRegex(@"size:\s+([\d.]+) x ([\d.]+) pts")]
    private static partial Regex PageSize();
}
