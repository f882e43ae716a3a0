using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Debrief.Tests;

public sealed class FrameKinshipTests
{
    private static SensorProfile Profile => SampleProfiles.ThreeIsos();

    private static RawFrame Own => new()
    {
        Metadata = new FrameMetadata
        {
            Iso = 400,
            Maker = Profile.Body.Maker,
            Model = Profile.Body.Model,
            SerialNumber = Profile.Body.SerialNumber,
            Firmware = Profile.Body.Firmware,
            Mode = new RecordingMode(Profile.RecordingMode.BitDepth, "uncompressed"),
        },
        Layout = new MosaicLayout
        {
            WidthPixels = Profile.Sensor.WidthPixels,
            HeightPixels = Profile.Sensor.HeightPixels,
            ActiveArea = new PixelRectangle(0, 0, Profile.Sensor.WidthPixels, Profile.Sensor.HeightPixels),
            ColourFilterArray = ColourFilterArray.Rggb,
            BitDepth = 14,
        },
    };

    [Fact]
    public void Stranger_TheProfilesOwnBody_IsNone()
    {
        Assert.Null(FrameKinship.Stranger(Profile, "a.dng", Own));
        Assert.Null(FrameKinship.Stranger(Profile, "a.dng", Own with { Metadata = new FrameMetadata { Iso = 100 } }));
    }

    public static TheoryData<string> Codes => [FindingCode.BodyMixed, "serial", FindingCode.FrameSizeDiffers, "mosaic", FindingCode.ModeMixed, "shutter", "lossy", FindingCode.FrameIncomplete, "iso-unmeasured"];

    [Theory]
    [MemberData(nameof(Codes))]
    public void Stranger_WhatTheProfileCannotSpeakFor_IsNamed(string what)
    {
        RawFrame frame = what switch
        {
            FindingCode.BodyMixed => With(m => m with { Model = "LM-9" }),
            "serial" => With(m => m with { SerialNumber = "1" }),
            FindingCode.FrameSizeDiffers => Own with { Layout = Own.Layout with { ActiveArea = new PixelRectangle(0, 0, 100, 100) } },
            "mosaic" => Own with { Layout = Own.Layout with { ColourFilterArray = ColourFilterArray.Bggr } },
            FindingCode.ModeMixed => With(m => m with { Mode = m.Mode with { BitDepth = 12 } }),
            "shutter" => With(m => m with { Mode = m.Mode with { Shutter = "electronic" } }),
            "lossy" => With(m => m with { Mode = m.Mode with { Compression = "lossy" } }),
            FindingCode.FrameIncomplete => With(m => m with { Iso = null }),
            _ => With(m => m with { Iso = 800 }),
        };
        string code = what switch
        {
            "serial" => FindingCode.BodyMixed,
            "mosaic" => FindingCode.FrameSizeDiffers,
            "shutter" or "lossy" => FindingCode.ModeMixed,
            _ => what,
        };

        Finding stranger = Assert.IsType<Finding>(FrameKinship.Stranger(Profile with { RecordingMode = Profile.RecordingMode with { Shutter = "mechanical", Compression = "lossless" } }, "a.dng", frame));

        Assert.Equal((code, "a.dng"), (stranger.Code, Assert.Single(stranger.Frames)));
        Assert.NotEmpty(stranger.Remedy);
    }

    private static RawFrame With(Func<FrameMetadata, FrameMetadata> change) => Own with { Metadata = change(Own.Metadata) };
}
