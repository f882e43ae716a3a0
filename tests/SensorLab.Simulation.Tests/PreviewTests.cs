using BitMiracle.LibTiff.Classic;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Tests.Flaws;
using SensorLab.Simulation.Tests.Writing;
using SensorLab.Simulation.Writing;

namespace SensorLab.Simulation.Tests;

public sealed class PreviewTests
{
    // A flat field loses at most half of the first coefficient's step of 2, an eighth of a code, and rounding's half.
    private const int FlatCodes = 1;

    // A busy one loses up to half a step, 2 to 16, in each of 64 coefficients, eight of them in quadrature: a few codes.
    private const int BusyCodes = 8;

    [Fact]
    public void CodeAt_TheNamedPoints_HasTheNamedCodes()
    {
        var look = new PreviewLook { ClipEv = 3.1, ShadowEndEv = -5, MiddleGreyCode = 118 };
        Assert.Equal(118, look.CodeAt(0), 1e-9);
        Assert.Equal(255, look.CodeAt(3.1), 1e-9);
        Assert.Equal(255, look.CodeAt(9));
        Assert.Equal(0, look.CodeAt(-5), 1e-9);
        Assert.Equal(0, look.CodeAt(double.NegativeInfinity));
        Assert.True(look.CodeAt(1) > look.CodeAt(0.99));
    }

    [Theory]
    [InlineData(16, 8, false)]
    [InlineData(53, 31, true)]
    public void Encode_Picture_IsReadByAnotherDecoder(int width, int height, bool isBusy)
    {
        byte[] picture = [.. Enumerable.Range(0, width * height).Select(i => (byte)(isBusy ? 40 + (2 * (i % width)) + (3 * (i / width)) + (i % 7) : 200))];
        byte[] decoded = DecodedByLibTiff(new JpegPreview(BaselineJpegEncoder.Encode(picture, width), width, height));
        int worst = Enumerable.Range(0, picture.Length).Max(i => Enumerable.Range(0, 3).Max(k => Math.Abs(decoded[(3 * i) + k] - picture[i])));
        Assert.InRange(worst, 0, isBusy ? BusyCodes : FlatCodes);
    }

    [Fact]
    public void Encode_MeteredFrame_HasItsPreviewInTheFirstDirectory()
    {
        RehearsalPlan plan = FlawStage.Plan();
        PlannedFrame metered = plan.Frames.First(frame => frame.Role == FrameRole.Metered);
        ushort[] codes = plan.Expose(metered);
        JpegPreview preview = plan.Preview(metered, codes)!;
        var dng = new MinimalDng(plan.Encode(metered));
        Assert.Equal([7], dng.First[259]);
        Assert.Equal([6], dng.First[262]);
        Assert.Equal([preview.WidthPixels], dng.First[256]);
        Assert.Equal([preview.Bytes.Length], dng.First[279]);
        Assert.Equal(codes, dng.Unpack(Assert.Single(dng.Blocks()), 48));
    }

    [Fact]
    public void Of_Truth_CountsThePreviewsClipFromTheMeteredFrames()
    {
        RehearsalPlan plan = FlawStage.Plan();
        IsoTruth truth = RehearsalTruth.Of(plan)[0];
        PreviewTruth preview = Assert.Single(truth.Previews!);
        double metered = truth.MiddleGreyDn!.Value * truth.GainElectronPerDn;
        Assert.Equal(2.7 + Math.Log2(4700 / metered), preview.ClipEv, 1e-9);
        Assert.Equal(truth.AboveEv!.Value - preview.ClipEv, preview.HiddenHeadroomEv, 1e-9);
        Assert.Null(RehearsalTruth.Of(FlawStage.Plan("preview-missing"))[0].Previews);
    }

    [Fact]
    public void Of_FurtherLooks_AddOneFrameALevelAndTheirOwnTruth()
    {
        var hard = new PreviewLook { Name = "hard", ClipEv = 2, ShadowEndEv = -4, MiddleGreyCode = 110 };
        RehearsalOptions options = FlawStage.Options with { IsoValues = [100] };
        RehearsalPlan one = FlawStage.Plan(options);
        RehearsalPlan two = FlawStage.Plan(options with { Body = options.Body with { FurtherLooks = [hard] } });

        int levels = one.Frames.Count(frame => frame.Role == FrameRole.Bracket) / 2;
        Assert.Equal(one.Frames.Count + levels, two.Frames.Count);
        Assert.Equal(levels, two.Frames.Count(frame => frame.Raw.Metadata.Look == "hard" && frame.Columns["look"] == "hard"));
        IReadOnlyList<PreviewTruth> truth = RehearsalTruth.Of(two)[0].Previews!;
        Assert.Equal(["neutral", "hard"], truth.Select(preview => preview.Look));
        Assert.Equal(0.7, truth[0].ClipEv - truth[1].ClipEv, 1e-9);
        Assert.All(truth[1].ToneCurve, point => Assert.Equal(point.Code, hard.CodeAt(point.Ev + 2 - truth[1].ClipEv), 1e-9));
    }

    private static byte[] DecodedByLibTiff(JpegPreview preview)
    {
        RehearsalPlan plan = FlawStage.Plan();
        string path = Path.Combine(Path.GetTempPath(), $"sensorlab-preview-{Guid.NewGuid():N}.dng");
        try
        {
            DngWriter.Write(path, plan.Frames[0].Raw, plan.Expose(plan.Frames[0]), new DngOptions(), preview);
            using Tiff tiff = QuietLibTiff.Open(path);
            tiff.SetField(BitMiracle.LibTiff.Classic.TiffTag.JPEGCOLORMODE, JpegColorMode.RGB);
            int rowBytes = 3 * preview.WidthPixels;
            var pixels = new byte[rowBytes * preview.HeightPixels];
            var row = new byte[tiff.ScanlineSize()];
            for (int y = 0; y < preview.HeightPixels; y++)
            {
                Assert.True(tiff.ReadScanline(row, y));
                row.AsSpan(0, rowBytes).CopyTo(pixels.AsSpan(y * rowBytes));
            }

            return pixels;
        }
        finally
        {
            File.Delete(path);
        }
    }
}
