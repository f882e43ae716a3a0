using System.Globalization;
using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

public sealed class SensorProfileWriterTests
{
    [Fact]
    public void Write_MoreThanAReaderTakes_IsRefused()
    {
        SensorProfile profile = SampleProfiles.Monochrome();
        SensorProfile large = profile with { IsoProfiles = [.. Enumerable.Range(100, 65).Select(iso => profile.IsoProfiles[0] with { Iso = iso })] };
        using var stream = new MemoryStream();

        ProfileFormatException thrown = Assert.Throws<ProfileFormatException>(() => SensorProfileWriter.Write(large, stream));

        Assert.Contains("isoProfiles", thrown.Message, StringComparison.Ordinal);
        Assert.Equal(0, stream.Length);
    }

    [Fact]
    public void Write_SmallestProfile_GivesExactlyThisText()
    {
        SensorProfile profile = new()
        {
            CreatedUtc = new DateTimeOffset(2026, 4, 18, 11, 30, 0, 750, TimeSpan.FromHours(2)),
            Software = new SoftwareIdentity("SensorLab", "0.1.0"),
            Body = new BodyIdentity("Larkmoor", "LM-2", null, "1.1"),
            RecordingMode = new RecordedMode { BitDepth = 14 },
            Sensor = new SensorGeometry(60, 40, "RGGB"),
            Conditions = new ShootingConditions { Light = "sky ≥ 8′ <away>" },
            MiddleGrey = new MiddleGrey { Method = "saturation" },
            IsoProfiles =
            [
                new IsoProfile
                {
                    Iso = 100,
                    Channels = [new ChannelProfile { Name = "G1", BlackLevelDn = Figure.Estimate(0.1 + 0.2, 1e-9, 1e-21, 1e12), Latitude = new ChannelLatitude() }],
                    Latitude = new IsoLatitude { AboveEv = Figure.LowerBound(3.9) },
                },
            ],
            Lights = [new LightRatios("lamp", new Dictionary<string, double> { ["B"] = -1.6, ["R"] = 0.5 })],
            Findings = [new Finding { Code = FindingCode.DarkLit, Severity = FindingSeverity.Warning, Message = "m", Remedy = "r" }],
        };

        Assert.Equal(SmallestProfileText, ProfileText.Of(profile));
    }

    [Fact]
    public void Write_Twice_GivesTheSameBytes() =>
        Assert.Equal(ProfileText.Of(SampleProfiles.ThreeIsos()), ProfileText.Of(SampleProfiles.ThreeIsos()));

    [Fact]
    public void Write_UnderAnotherCulture_GivesTheSameBytes()
    {
        string expected = ProfileText.Of(SampleProfiles.ThreeIsos());
        CultureInfo before = CultureInfo.CurrentCulture;
        CultureInfo commas = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        commas.NumberFormat.NumberDecimalSeparator = ",";
        commas.NumberFormat.NegativeSign = "−";
        try
        {
            CultureInfo.CurrentCulture = commas;
            Assert.Equal(expected, ProfileText.Of(SampleProfiles.ThreeIsos()));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Write_LightsInAnotherOrder_GivesTheSameBytes()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfile turned = profile with
        {
            Lights = [.. profile.Lights.Select(l => new LightRatios(l.Name, l.ChannelEv.Reverse().ToDictionary()))],
        };

        Assert.Equal(ProfileText.Of(profile), ProfileText.Of(turned));
    }

    public static TheoryData<string, SensorProfile> Faulty()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        IsoProfile iso = profile.IsoProfiles[0];
        SensorProfile WithIso(IsoProfile changed) => profile with { IsoProfiles = [profile.IsoProfiles[1], changed] };
        SensorProfile WithAbove(Figure figure) => WithIso(iso with { Latitude = iso.Latitude with { AboveEv = figure } });
        return new()
        {
            { "isoProfiles[1].latitude.aboveEv.value is not a finite number", WithAbove(new Figure { Value = double.NaN }) },
            { "isoProfiles[1].latitude.aboveEv.atLeast is not a finite number", WithAbove(new Figure { AtLeast = double.PositiveInfinity }) },
            { "isoProfiles[1].latitude.aboveEv is neither", WithAbove(new Figure()) },
            { "isoProfiles[1].latitude.aboveEv is neither", WithAbove(new Figure { Value = 3, StandardUncertainty = 0.1 }) },
            { "isoProfiles[1].latitude.aboveEv is neither", WithAbove(new Figure { AtLeast = 3, AtMost = 4 }) },
            { "isoProfiles[1].latitude.aboveEv is a bound and an estimate", WithAbove(new Figure { AtLeast = 3, Value = 4 }) },
            { "isoProfiles[1].latitude.aboveEv has an interval", WithAbove(new Figure { Value = 3, StandardUncertainty = 0.1, Lower95 = 3.1, Upper95 = 3.2 }) },
            { "isoProfiles[1].latitude.aboveEv has an interval", WithAbove(new Figure { Value = 3, StandardUncertainty = -0.1, Lower95 = 2.9, Upper95 = 3.2 }) },
            { "isoProfiles[1].latitude.aboveEv has an interval", WithAbove(new Figure { Value = 3, StandardUncertainty = 0.1, Lower95 = 2.9, Upper95 = 3.2, DegreesOfFreedom = 0 }) },
            { "isoProfiles[1].levels[0].channels[2].frameMeansDn[1] is not a finite number", WithIso(iso with { Levels = [WithMeans(iso.Levels[0], 2, [1, double.NegativeInfinity])] }) },
            { "lights[0].channelEv.R is not a finite number", profile with { Lights = [new LightRatios("lamp", new Dictionary<string, double> { ["R"] = double.NaN })] } },
            { "assumptions[1] is null", profile with { Assumptions = ["one", null!] } },
            { "findings[0].remedy is null", profile with { Findings = [profile.Findings[0] with { Remedy = null! }] } },
            { "findings[0].severity is no severity", profile with { Findings = [profile.Findings[0] with { Severity = (FindingSeverity)7 }] } },
            { "isoProfiles is empty", profile with { IsoProfiles = [] } },
            { "format is not", profile with { Format = "other" } },
            { "formatVersion is 2.0", profile with { FormatVersion = "2.0" } },
        };
    }

    [Theory]
    [MemberData(nameof(Faulty), DisableDiscoveryEnumeration = true)]
    public void Write_FaultyProfile_NamesThePathAndWritesNothing(string expected, SensorProfile profile)
    {
        using MemoryStream stream = new();

        ArgumentException thrown = Assert.Throws<ArgumentException>(() => SensorProfileWriter.Write(profile, stream));

        Assert.StartsWith(expected, thrown.Message, StringComparison.Ordinal);
        Assert.Equal(0, stream.Length);
    }

    [Fact]
    public void WriteFile_FaultyProfile_LeavesTheExistingFile()
    {
        using TemporaryFolder folder = new();
        File.WriteAllText(folder.File("p.json"), "before");
        SensorProfile faulty = SampleProfiles.Monochrome() with { Assumptions = [null!] };

        Assert.Throws<ArgumentException>(() => SensorProfileWriter.WriteFile(faulty, folder.File("p.json"), TestContext.Current.CancellationToken));

        Assert.Equal("before", File.ReadAllText(folder.File("p.json")));
        Assert.Single(Directory.GetFileSystemEntries(folder.Path));
    }

    private static LevelRecord WithMeans(LevelRecord level, int channel, IReadOnlyList<double> means) => level with
    {
        Channels = [.. level.Channels.Select((c, i) => i == channel ? c with { FrameMeansDn = means } : c)],
    };

    private const string SmallestProfileText =
        """
        {
          "format": "sensorlab-profile",
          "formatVersion": "1.1",
          "createdUtc": "2026-04-18T09:30:00Z",
          "software": {
            "name": "SensorLab",
            "version": "0.1.0"
          },
          "body": {
            "maker": "Larkmoor",
            "model": "LM-2",
            "serialNumber": null,
            "firmware": "1.1"
          },
          "recordingMode": {
            "bitDepth": 14,
            "compression": null,
            "shutter": null,
            "drive": null,
            "noiseReduction": null,
            "crop": null,
            "description": null
          },
          "sensor": {
            "widthPixels": 60,
            "heightPixels": 40,
            "colourFilterArray": "RGGB"
          },
          "conditions": {
            "light": "sky ≥ 8′ <away>",
            "lens": null,
            "apertureFNumber": null,
            "temperatureCelsius": null,
            "protocol": null,
            "region": null
          },
          "middleGrey": {
            "method": "saturation",
            "meterStepEv": null,
            "meterStandardUncertaintyEv": null,
            "readings": null
          },
          "delivery": null,
          "assumptions": [],
          "isoProfiles": [
            {
              "iso": 100,
              "meterReadings": null,
              "meterStandardUncertaintyEv": null,
              "channels": [
                {
                  "name": "G1",
                  "declaredBlackDn": null,
                  "declaredWhiteDn": null,
                  "blackLevelDn": {
                    "value": 0.30000000000000004,
                    "standardUncertainty": 1E-09,
                    "lower95": 1E-21,
                    "upper95": 1000000000000
                  },
                  "latitude": {
                    "belowEv": []
                  }
                }
              ],
              "latitude": {
                "aboveEv": {
                  "atLeast": 3.9
                },
                "limitingChannel": null,
                "limitingChannelBelow": null,
                "belowEv": []
              },
              "snrCurve": [],
              "levels": [],
              "previews": []
            }
          ],
          "lights": [
            {
              "name": "lamp",
              "channelEv": {
                "R": 0.5,
                "B": -1.6
              }
            }
          ],
          "findings": [
            {
              "code": "dark-lit",
              "severity": "warning",
              "iso": null,
              "channel": null,
              "frames": [],
              "size": null,
              "sizeUnit": null,
              "message": "m",
              "remedy": "r"
            }
          ],
          "frames": []
        }

        """;
}
