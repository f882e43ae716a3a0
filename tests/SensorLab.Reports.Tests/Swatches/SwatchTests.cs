using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Tests.Samples;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Swatches;

public sealed partial class SwatchTests(PageBrowser browser) : IClassFixture<PageBrowser>, IDisposable
{
    // What the swatch promises of its written pictures.
    private const double MeanTolerance = 0.005;
    private const double NoiseTolerance = 0.03;

    // The spread of n lines is known to 1/√(2n): four deviations for the 216 rows and 288 columns of a patch.
    private const double LineTolerance = 4 * 0.048;

    // A correlation of 62 208 pairs is known to 0.004; eight bits add white noise of a few percent.
    private const double CorrelationTolerance = 0.025;

    private const double Grey = 0.18;
    private const int Iso = 400;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Page_EveryPatch_HasItsToneAndTheBodysNoise()
    {
        Patch[] patches = PatchesOf(SwatchWriter.Html(Native(), Iso));

        Assert.Equal([2, 1, 0, -1, -2, -2.5, -3], patches.Where(p => !p.IsLifted).Take(7).Select(p => p.Ev));
        Assert.All(patches, patch =>
        {
            double snr = SensorOf(Iso).SnrPoint(patch.Ev).SnrTotal!.Value!.Value;
            double light = Grey * (patch.IsLifted ? 1 : Math.Pow(2, patch.Ev));
            Assert.False(patch.IsCoarse);
            Assert.InRange(patch.Measured.Mean / light, 1 - MeanTolerance, 1 + MeanTolerance);
            Assert.InRange(patch.Measured.Deviation / light * snr, 1 - NoiseTolerance, 1 + NoiseTolerance);
            Assert.InRange(patch.Snr / snr, 1 - 0.01, 1 + 0.01);
        });
        // The sample's curve ends there.
        Assert.Equal(-8, patches.Min(p => p.Ev));
    }

    // Where the law reaches a criterion and what the patch is marked with are the same place.
    [Fact]
    public void Page_NumberOfAPatch_EndsTheShadowsThere()
    {
        foreach (Patch patch in PatchesOf(SwatchWriter.Html(Native(), Iso)).Where(p => p.Ev < 1))
        {
            Assert.InRange(SensorOf(Iso).ShadowEnd(patch.Criterion).PerPixel!.Value!.Value + patch.Ev, -0.05, 0.05);
        }
    }

    [Fact]
    public void Page_RowsAndColumns_AreDrawnAsModelled()
    {
        const double RowElectron = 3;
        const double FixedRowElectron = 2;
        const double ColumnElectron = 2.5;
        SensorProfile profile = With(Native(), c => c with
        {
            RowNoiseElectron = SampleProfiles.Measured(RowElectron, 0.01),
            DsnuRowElectron = SampleProfiles.Measured(FixedRowElectron, 0.01),
            ColumnNoiseElectron = Figure.UpperBound(0.1),
            DsnuColumnElectron = SampleProfiles.Measured(ColumnElectron, 0.01),
            PrnuColumnPercent = Figure.UpperBound(0.1),
            MiddleGreyDn = c.MiddleGreyDn,
        });
        Patch patch = PatchesOf(SwatchWriter.Html(profile, Iso)).Single(p => p.IsLifted && p.Ev == -4);
        ChannelProfile green = profile.IsoProfiles.Single(i => i.Iso == Iso).Channels[1];
        double electrons = green.MiddleGreyDn!.Value!.Value * green.GainElectronPerDn!.Value!.Value * Math.Pow(2, patch.Ev);

        Assert.InRange(patch.Measured.Rows * electrons / double.Hypot(RowElectron, FixedRowElectron), 1 - LineTolerance, 1 + LineTolerance);
        Assert.InRange(patch.Measured.Columns * electrons / ColumnElectron, 1 - LineTolerance, 1 + LineTolerance);
        Assert.InRange(patch.Measured.Deviation / Grey * SensorOf(Iso).SnrPoint(patch.Ev).SnrTotal!.Value!.Value, 1 - NoiseTolerance, 1 + NoiseTolerance);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.2, 0.1)]
    [InlineData(-0.15, 0.3)]
    public void Page_Neighbours_ShareWhatTheyDoInTheFrames(double horizontal, double vertical)
    {
        SensorProfile profile = Native();
        profile = profile with
        {
            IsoProfiles = [.. profile.IsoProfiles.Select(iso => iso with
            {
                Levels = [.. iso.Levels.Select(level => level with
                {
                    Channels = [.. level.Channels.Select(c => c with { NeighbourCorrelation = new NeighbourCorrelation(horizontal, vertical, 0.002) })],
                })],
            })],
        };

        // Deep in the shadows hardly any noise is the fixed pattern's, which neighbours do not share.
        Patch patch = PatchesOf(SwatchWriter.Html(profile, Iso)).Single(p => p.IsLifted && p.Ev == -5);

        Assert.InRange(patch.Measured.Horizontal, horizontal - CorrelationTolerance, horizontal + CorrelationTolerance);
        Assert.InRange(patch.Measured.Vertical, vertical - CorrelationTolerance, vertical + CorrelationTolerance);
    }

    // 6048 × 4024 photosites, half of them green, over 1512 × 1006 pixels: sixteen to one, SNR √8 higher.
    [Fact]
    public void Page_AtDeliverySize_HasTheNoiseThatIsLeftThere()
    {
        double gain = Math.Sqrt(8);
        SensorProfile profile = With(Native(), c => c with { RowNoiseElectron = null, ColumnNoiseElectron = null, DsnuRowElectron = null, DsnuColumnElectron = null, PrnuRowPercent = null, PrnuColumnPercent = null });

        Patch[] patches = PatchesOf(SwatchWriter.Html(profile, 1600, new Delivery(1512, 1006)));

        Assert.All(patches, patch =>
        {
            double snr = gain * SensorOf(1600).SnrPoint(patch.Ev).SnrTotal!.Value!.Value;
            double light = Grey * (patch.IsLifted ? 1 : Math.Pow(2, patch.Ev));
            Assert.InRange(patch.Measured.Mean / light, 1 - MeanTolerance, 1 + MeanTolerance);
            Assert.InRange(patch.Snr / snr, 1 - 0.01, 1 + 0.01);
            Assert.InRange(patch.Criterion / snr, 1 - 0.01, 1 + 0.01);
            if (!patch.IsCoarse)
            {
                Assert.InRange(patch.Measured.Deviation / light * snr, 1 - NoiseTolerance, 1 + NoiseTolerance);
            }
        });
        Assert.Contains(patches, p => !p.IsCoarse);
    }

    // Half a code is what a mixture of two codes may need at least: no patch with more noise may be given up.
    [Theory]
    [InlineData(600, 400)]
    [InlineData(3024, 2012)]
    public void Page_CoarsePatches_AreThoseUnderHalfACodeAlone(int width, int height)
    {
        foreach (Patch patch in PatchesOf(SwatchWriter.Html(Native(), 100, new Delivery(width, height))))
        {
            double light = Grey * (patch.IsLifted ? 1 : Math.Pow(2, patch.Ev));
            double codes = 255 * 1.055 / 2.4 * Math.Pow(light, 1 / 2.4) / patch.Snr;

            Assert.True(!patch.IsCoarse || light < 0.0031308 || codes < 0.55, $"{patch.Ev} EV: {codes} codes of noise");
            Assert.InRange(patch.Measured.Mean / light, 1 - MeanTolerance, 1 + MeanTolerance);
        }
    }

    [Fact]
    public void Page_ToneThatClips_IsLeftOut()
    {
        SensorProfile profile = Native();
        profile = profile with
        {
            IsoProfiles = [.. profile.IsoProfiles.Select(iso => iso with { Latitude = iso.Latitude with { AboveEv = SampleProfiles.Measured(1.4, 0.01), FirstClipEv = SampleProfiles.Measured(1.3, 0.01) } })],
        };

        byte[] page = SwatchWriter.Html(profile, Iso);

        Assert.Equal(1, PatchesOf(page)[0].Ev);
        Assert.Contains("Above +1 EV this ISO clips.", Encoding.UTF8.GetString(page), StringComparison.Ordinal);
    }

    [Fact]
    public void Profile_WithoutWhatIsDrawn_IsRefusedWithTheReason()
    {
        Assert.Throws<IsoUnmeasuredException>(() => SwatchWriter.Html(Native(), 800));
        SwatchRefusedException refused = Assert.Throws<SwatchRefusedException>(() => SwatchWriter.Html(SampleStates.Of("absent"), Iso));

        Assert.Equal((SwatchRefusedException.Code, Iso), (refused.Findings[0].Code, refused.Findings[0].Iso));
    }

    [Fact]
    public void SameProfile_GivesTheSameBytes()
    {
        Assert.Equal(SwatchWriter.Html(Native(), Iso), SwatchWriter.Html(Native(), Iso));
        Assert.Equal(SwatchWriter.Pdf(Native(), Iso, cancellation: TestContext.Current.CancellationToken), SwatchWriter.Pdf(Native(), Iso, cancellation: TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Paper_EveryPatch_IsAt300DpiWithToneAndNoise()
    {
        const string Reader = "/usr/bin/pdfimages";
        Assert.SkipUnless(File.Exists(Reader), $"There is no {Reader}: bash src/install.sh --tests installs it.");
        string path = _folder.File("swatch.pdf");
        await File.WriteAllBytesAsync(path, SwatchWriter.Pdf(Native(), Iso, cancellation: TestContext.Current.CancellationToken), TestContext.Current.CancellationToken);

        string list = await RunAsync(Reader, "-list", path);
        await RunAsync(Reader, "-png", path, _folder.File("patch"));

        string[] rows = [.. list.Split('\n').Skip(2).Where(l => l.Length > 0)];
        Assert.All(rows, row => Assert.Equal(["300", "300"], row.Split(' ', StringSplitOptions.RemoveEmptyEntries)[12..14]));
        Patch[] page = PatchesOf(SwatchWriter.Html(Native(), Iso));
        string[] files = [.. Directory.GetFiles(_folder.Path, "patch-*.png").Order(StringComparer.Ordinal)];
        Assert.Equal(page.Length, files.Length);
        foreach ((Patch patch, string file) in page.Zip(files))
        {
            var measured = MeasuredPatch.OfPng(await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken));
            double light = Grey * (patch.IsLifted ? 1 : Math.Pow(2, patch.Ev));
            Assert.InRange(measured.Mean / light, 1 - MeanTolerance, 1 + MeanTolerance);
            Assert.InRange(measured.Deviation / light * patch.Snr, 1 - NoiseTolerance, 1 + NoiseTolerance);
        }
    }

    [Fact]
    public async Task Page_OnAScreen_ShowsThePicturesOwnPixelsAndNamesTheCriterion()
    {
        string path = _folder.File("swatch.html");
        byte[] bytes = SwatchWriter.Html(Native(), Iso);
        await File.WriteAllBytesAsync(path, bytes, TestContext.Current.CancellationToken);
        await using OpenPage page = await browser.OpenAsync(path, 360);
        Assert.InRange(await page.OverflowAsync(), int.MinValue, 0);
        Assert.Empty(await page.StructureFaultsAsync());

        LocatorBoundingBoxResult box = (await page.Page.Locator(".patch img").First.BoundingBoxAsync())!;
        var clip = new Clip { X = MathF.Round(box.X), Y = MathF.Round(box.Y), Width = box.Width, Height = box.Height };
        var shown = MeasuredPatch.OfPng(await page.Page.ScreenshotAsync(new PageScreenshotOptions { Clip = clip, FullPage = true }));
        await page.Page.FocusAsync("#tone-9");
        await page.Page.Keyboard.PressAsync("Space");

        Patch first = PatchesOf(bytes)[0];
        Assert.Equal((first.Measured.Mean, first.Measured.Deviation), (shown.Mean, shown.Deviation));
        string[] visible = await page.Page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('.chosen')].filter(e => e.checkVisibility()).map(e => e.innerText)");
        Assert.Contains("--snr " + PatchesOf(bytes)[8].Criterion.ToString("0.0#", CultureInfo.InvariantCulture), Assert.Single(visible), StringComparison.Ordinal);
        Assert.Empty(page.Complaints);
        Assert.Empty(page.Requests);
    }

    // As the sample's physics, with no delivery size of its own.
    private static SensorProfile Native() => SampleProfiles.ThreeIsos() with { Delivery = null };

    private static SampleSensor SensorOf(int iso) => new(iso switch { 100 => 3.2, 400 => 0.8, _ => 0.2 });

    private static SensorProfile With(SensorProfile profile, Func<ChannelProfile, ChannelProfile> change) => profile with
    {
        IsoProfiles = [.. profile.IsoProfiles.Select(iso => iso with { Channels = [.. iso.Channels.Select(change)] })],
    };

    private static Patch[] PatchesOf(byte[] page) =>
    [
        .. PatchPattern().Matches(Encoding.UTF8.GetString(page)).Select(m => new Patch(
            Number(m, "ev"), Number(m, "snr"), Number(m, "criterion"), m.Groups["lifted"].Success, m.Groups["coarse"].Success,
            MeasuredPatch.OfPng(Convert.FromBase64String(m.Groups["png"].Value)))),
    ];

    private static double Number(Match match, string group) => double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    private static async Task<string> RunAsync(string program, params string[] words)
    {
        using Process reader = Process.Start(new ProcessStartInfo(program, words) { RedirectStandardOutput = true })!;
        string text = await reader.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await reader.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, reader.ExitCode);
        return text;
    }

    [GeneratedRegex("<div class=\"patch\" data-ev=\"(?<ev>[^\"]+)\" data-snr=\"(?<snr>[^\"]+)\"(?<lifted> data-lifted)?(?<coarse> data-coarse)?>.*?base64,(?<png>[^\"]+)\".*?<code>--snr (?<criterion>[^<]+)</code>", RegexOptions.Singleline)]
    private static partial Regex PatchPattern();

    private sealed record Patch(double Ev, double Snr, double Criterion, bool IsLifted, bool IsCoarse, MeasuredPatch Measured);
}
