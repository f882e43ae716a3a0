using SensorLab.Debrief;
using SensorLab.Debriefs;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.RawFiles;
using SensorLab.TestData;

namespace SensorLab.Tests.Debriefs;

/// <summary>Real everyday raw files beside a profile made for the purpose.</summary>
public sealed class RealJobTests
{
    [Theory]
    [InlineData("raw/canon_powershot_crw")]
    [InlineData("raw/canon_eos30d_cr2")]
    public async Task Debrief_EverydayFrames_GivesSensibleFigures(string folder)
    {
        string job = Shared(folder);
        if (Opened(job) is not { } frame)
        {
            Assert.Skip("LibRaw is not here to decode them.");
            return;
        }

        DayDebrief day = await DebriefRun.RunAsync(ProfileFor(frame), job, 2, null, TestContext.Current.CancellationToken);

        Assert.Equal(Directory.GetFiles(job).Count(RawFileOpener.IsRawFile), day.Frames.Count);
        Assert.All(day.Frames, f =>
        {
            Assert.InRange(f.HeadroomLeftEv, 0, 8);
            Assert.All(f.ClippedPercent.Values, percent => Assert.InRange(percent, 0, 60));
            Assert.InRange(f.MedianEv, f.DarkestEv, f.BrightestEv);
            Assert.InRange(f.ShadowPercent.Snr4, 0, f.ShadowPercent.Snr10);
            Assert.NotNull(f.PreviewBlewRawHeld);
        });
    }

    [Fact]
    public async Task Debrief_DamagedFilesOfManyFormats_AreNamedOneByOne()
    {
        string damaged = Shared("damaged");

        JobRefusedException refused = await Assert.ThrowsAsync<JobRefusedException>(() =>
            DebriefRun.RunAsync(SampleProfile(), damaged, 2, null, TestContext.Current.CancellationToken));

        string[] named = [.. refused.Findings.SelectMany(f => f.Frames).Distinct()];
        int raw = Directory.GetFiles(damaged, "*", SearchOption.AllDirectories).Count(f => RawFileOpener.IsRawFile(f) && !Path.GetFileName(f).StartsWith('.'));
        Assert.Equal(raw, named.Length);
        Assert.All(refused.Findings, f => Assert.NotEmpty(f.Remedy));
    }

    private static string Shared(string name)
    {
        string folder = Path.Combine(Repository.Root, "..", "shared", "real-data", name);
        if (!Directory.Exists(folder))
        {
            Assert.Skip("The real data are not here.");
        }

        return folder;
    }

    private static RawFrame? Opened(string job)
    {
        try
        {
            using IMosaicReader reader = RawFileOpener.Open(Directory.GetFiles(job).First(RawFileOpener.IsRawFile));
            return reader.Frame;
        }
        catch (UnsupportedFileException)
        {
            return null;
        }
    }

    private static SensorProfile SampleProfile() => ProfileFor(new RawFrame
    {
        Metadata = new FrameMetadata { Iso = 100 },
        Layout = new MosaicLayout { WidthPixels = 8, HeightPixels = 8, ActiveArea = new PixelRectangle(0, 0, 8, 8), ColourFilterArray = ColourFilterArray.Rggb, BitDepth = 14 },
    });

    // A body that would write such files: black and white as declared, a well of 20,000 electrons, 12 of read noise, grey three stops down.
    private static SensorProfile ProfileFor(RawFrame frame)
    {
        double black = frame.Declared.BlackDn.Values.DefaultIfEmpty(0).Average();
        double saturation = (frame.Declared.WhiteDn ?? ((1 << frame.Layout.BitDepth) - 1)) - black;
        double gain = 20_000 / saturation;
        string[] names = [.. frame.Layout.ColourFilterArray.Channels.Select(c => c.ToString())];
        return new SensorProfile
        {
            Software = new SoftwareIdentity("SensorLab", "0.1.0"),
            Body = new BodyIdentity(null, null, null, null),
            RecordingMode = new RecordedMode(),
            Sensor = new SensorGeometry(frame.Layout.ActiveArea.Width, frame.Layout.ActiveArea.Height, frame.Layout.ColourFilterArray.Name),
            Conditions = new ShootingConditions(),
            MiddleGrey = new MiddleGrey { Method = "metered" },
            IsoProfiles =
            [
                new IsoProfile
                {
                    Iso = frame.Metadata.Iso!.Value,
                    Latitude = new IsoLatitude { AboveEv = Figure.Normal(3, 0.05) },
                    Channels =
                    [
                        .. names.Select(name => new ChannelProfile
                        {
                            Name = name,
                            BlackLevelDn = Figure.Normal(black, 0.1),
                            SaturationDn = Figure.Normal(saturation, 1),
                            GainElectronPerDn = Figure.Normal(gain, 0.01 * gain),
                            ReadNoiseDn = Figure.Normal(12 / gain, 0.1 / gain),
                            DsnuElectron = Figure.Normal(1, 0.1),
                            PrnuPercent = Figure.Normal(0.5, 0.01),
                            MiddleGreyDn = Figure.Normal(saturation / 8, 1),
                            Latitude = new ChannelLatitude(),
                        }),
                    ],
                },
            ],
        };
    }
}
