using System.Text;
using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

public sealed class SensorProfileReaderTests
{
    private const string Smallest =
        """
        {
          "format": "sensorlab-profile", "formatVersion": "1.0",
          "software": {"name": "s", "version": "1"}, "body": {}, "recordingMode": {},
          "sensor": {"widthPixels": 2, "heightPixels": 2, "colourFilterArray": "RGGB"},
          "conditions": {}, "middleGrey": {"method": "metered"},
          "isoProfiles": [{"iso": 100, "channels": [{"name": "G1", "latitude": {}}], "latitude": {}, "levels": [
            {"role": "dark", "exposureSeconds": 1, "frames": 1, "pixelsPerChannel": 1, "channels": [{"name": "G1", "meanDn": 5}]}]}]
        }
        """;

    public static TheoryData<string> Samples => [ProfileText.Of(SampleProfiles.ThreeIsos()), ProfileText.Of(SampleProfiles.Monochrome()), ProfileText.Of(SampleProfiles.Bounds()), ProfileText.Of(SampleProfiles.HostileStrings())];

    [Theory]
    [MemberData(nameof(Samples), DisableDiscoveryEnumeration = true)]
    public void Read_WhatWasWritten_WritesTheSameBytesAgain(string text) => Assert.Equal(text, ProfileText.Of(ProfileText.Read(text)));

    [Fact]
    public void Read_FullProfile_HasEveryPartOfIt()
    {
        SensorProfile written = SampleProfiles.ThreeIsos();

        SensorProfile read = ProfileText.Read(ProfileText.Of(written));

        Assert.Equal(written.CreatedUtc, read.CreatedUtc);
        Assert.Equal(written.Body, read.Body);
        Assert.Equal(written.IsoProfiles[2].Latitude.AboveEv, read.IsoProfiles[2].Latitude.AboveEv);
        Assert.Equal(written.IsoProfiles[1].Channels[3].ReadNoiseElectron, read.IsoProfiles[1].Channels[3].ReadNoiseElectron);
        Assert.Equal(written.IsoProfiles[0].Levels[0].Channels[0].Histogram!.Counts, read.IsoProfiles[0].Levels[0].Channels[0].Histogram!.Counts);
        Assert.Equal(written.Lights[0].ChannelEv.OrderBy(e => e.Key), read.Lights[0].ChannelEv.OrderBy(e => e.Key));
        Assert.Equal(FindingSeverity.Refusal, read.Findings[0].Severity);
    }

    [Fact]
    public void Read_LargePatternOfFilters_IsAnObjectAndComesBack()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        profile = profile with { Sensor = profile.Sensor with { ColourFilterArray = "4x4:RRGGRRGGGGBBGGBB" } };

        string text = ProfileText.Of(profile);

        Assert.Contains("\"colourFilterArray\": {\n      \"rows\": 4,\n      \"columns\": 4,\n      \"pattern\": \"RRGGRRGGGGBBGGBB\"\n    }", text, StringComparison.Ordinal);
        Assert.Equal(profile.Sensor, ProfileText.Read(text).Sensor);
        Assert.Equal("1.2", SensorProfile.FormatVersionFor(profile.Sensor));
        Assert.Equal("1.1", SensorProfile.FormatVersionFor(SampleProfiles.ThreeIsos().Sensor));
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("[]")]
    [InlineData("6")]
    [InlineData("\"4x4:RRGGRRGGGGBBGGBB\"")]
    [InlineData("{\"rows\": 6, \"columns\": 6, \"pattern\": \"RGB\"}")]
    [InlineData("{\"rows\": 0, \"columns\": 0, \"pattern\": \"\"}")]
    [InlineData("{\"rows\": 9, \"columns\": 1, \"pattern\": \"RGBRGBRGB\"}")]
    [InlineData("{\"rows\": 1, \"columns\": 4, \"pattern\": \"RGBW\"}")]
    [InlineData("{\"rows\": \"1\", \"columns\": 3, \"pattern\": \"RGB\"}")]
    public void Read_FiltersThatAreNone_IsRefusedWithItsPlace(string filters)
    {
        ProfileFormatException refusal = Assert.Throws<ProfileFormatException>(() => ProfileText.Read(Smallest.Replace("\"RGGB\"", filters, StringComparison.Ordinal)));

        Assert.Contains("colourFilterArray", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ReadFile_WrittenFile_GivesTheProfile()
    {
        using TemporaryFolder folder = new();
        SensorProfileWriter.WriteFile(SampleProfiles.Monochrome(), folder.File("p.json"), TestContext.Current.CancellationToken);

        Assert.Equal(200, SensorProfileReader.ReadFile(folder.File("p.json")).IsoProfiles[0].Iso);
    }

    [Fact]
    public void ReadFile_Missing_ThrowsIoException()
    {
        using TemporaryFolder folder = new();

        Assert.Throws<FileNotFoundException>(() => SensorProfileReader.ReadFile(folder.File("none.json")));
    }

    [Fact]
    public void Read_PartsMissingThatMayBe_TakesTheirDefaults()
    {
        SensorProfile profile = ProfileText.Read(Smallest);

        Assert.Empty(profile.Assumptions);
        Assert.Empty(profile.Findings);
        Assert.Empty(profile.Frames);
        Assert.Empty(profile.Lights);
        Assert.Empty(profile.IsoProfiles[0].SnrCurve);
        Assert.Empty(profile.IsoProfiles[0].Previews);
        Assert.Empty(profile.IsoProfiles[0].Latitude.BelowEv);
        Assert.Empty(profile.IsoProfiles[0].Channels[0].Latitude.BelowEv);
        Assert.Empty(profile.IsoProfiles[0].Levels[0].Channels[0].FrameMeansDn);
        Assert.Equal(1, profile.IsoProfiles[0].Levels[0].Channels[0].CodeStepDn);
        Assert.Null(profile.Body.SerialNumber);
    }

    [Fact]
    public void Read_UnknownPropertiesAndLaterMinorVersion_IgnoresThem()
    {
        string later = Smallest
            .Replace("\"1.0\"", "\"1.7\", \"moonPhase\": {\"a\": [1, {\"b\": null}]}", StringComparison.Ordinal)
            .Replace("\"iso\": 100", "\"iso\": 100, \"tide\": [[]]", StringComparison.Ordinal);

        Assert.Equal(100, ProfileText.Read(later).IsoProfiles[0].Iso);
    }

    [Fact]
    public void Read_ByteOrderMark_IsSkipped() => Assert.Equal(100, ProfileText.Read("\ufeff" + Smallest).IsoProfiles[0].Iso);

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("{\"format\": \"sensorlab-plan\", \"formatVersion\": \"1.0\"}")]
    [InlineData("{\"format\": 3}")]
    [InlineData("{\"format\": [\"sensorlab-profile\"]}")]
    public void Read_OtherDocument_SaysItIsNoSensorProfile(string text)
    {
        ProfileFormatException thrown = Assert.Throws<ProfileFormatException>(() => ProfileText.Read(text));

        Assert.Matches("no sensor profile|no JSON", thrown.Message);
        Assert.Contains("sensorlab characterise", thrown.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"2.0\"", "formatVersion is 2.0", "Update SensorLab")]
    [InlineData("\"0.9\"", "formatVersion is 0.9", "sensorlab characterise")]
    [InlineData("\"1\"", "formatVersion is not a version", "sensorlab characterise")]
    [InlineData("\"1.-3\"", "formatVersion is not a version", "sensorlab characterise")]
    [InlineData("1.0", "formatVersion is not a version", "sensorlab characterise")]
    public void Read_OtherVersion_IsRefused(string version, string reason, string remedy)
    {
        ProfileFormatException thrown = Assert.Throws<ProfileFormatException>(
            () => ProfileText.Read(Smallest.Replace("\"1.0\"", version, StringComparison.Ordinal)));

        Assert.Contains(reason, thrown.Message, StringComparison.Ordinal);
        Assert.Contains(remedy, thrown.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_CutShortAnywhere_ThrowsOurExceptionAlone()
    {
        for (int length = 0; length < Smallest.Length; length++)
        {
            Assert.Throws<ProfileFormatException>(() => ProfileText.Read(Smallest[..length]));
        }
    }

    [Theory]
    [InlineData("\"iso\": 100", "\"iso\": 100, \"iso\": 200", "isoProfiles[0]")]
    [InlineData("\"iso\": 100,", "", "isoProfiles[0]")]
    [InlineData("\"iso\": 100", "\"iso\": \"100\"", "isoProfiles[0].iso")]
    [InlineData("\"iso\": 100", "\"iso\": 99999999999999999999", "isoProfiles[0].iso")]
    [InlineData("\"version\": \"1\"", "\"version\": null", "software.version")]
    [InlineData(", \"version\": \"1\"", "", "software")]
    [InlineData("\"meanDn\": 5", "\"meanDn\": 1e999", "isoProfiles[0].levels[0].channels[0].meanDn is not a finite number")]
    [InlineData("\"conditions\": {}", "\"conditions\": []", "conditions")]
    [InlineData("\"body\": {}", "\"body\": {\"maker\": \"\\ud800\"}", "body.maker")]
    [InlineData("\"body\": {}", "\"body\": {}, \"assumptions\": [null]", "assumptions[0] is null")]
    [InlineData("\"body\": {}", "\"body\": {}, \"createdUtc\": \"yesterday\"", "createdUtc")]
    [InlineData("\"body\": {}", "\"body\": {}, \"lights\": [{\"name\": \"a\", \"channelEv\": {\"R\": null}}]", "lights[0].channelEv")]
    [InlineData("\"body\": {}", "\"body\": {}, \"lights\": [{\"name\": \"a\", \"channelEv\": {\"R\": 1, \"R\": 2}}]", "lights[0].channelEv")]
    [InlineData("\"meanDn\": 5", "\"meanDn\": 5, \"histogram\": {\"firstCodeDn\": 1, \"counts\": [1, 2.5]}", "histogram.counts")]
    [InlineData("\"latitude\": {}, \"levels\"", "\"latitude\": {\"aboveEv\": {}}, \"levels\"", "isoProfiles[0].latitude.aboveEv is neither")]
    public void Read_WrongPart_NamesItsPlace(string part, string replacement, string place)
    {
        Assert.Contains(part, Smallest, StringComparison.Ordinal);

        ProfileFormatException thrown = Assert.Throws<ProfileFormatException>(
            () => ProfileText.Read(Smallest.Replace(part, replacement, StringComparison.Ordinal)));

        Assert.Contains(place, thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_NestedTooDeep_IsRefusedWithoutAStackOverflow()
    {
        string nested = new StringBuilder("{\"a\":").Insert(5, "[", 1_000_000).ToString();

        Assert.Throws<ProfileFormatException>(() => ProfileText.Read(nested));
    }

    [Fact]
    public void Read_EndlessDocument_IsRefusedAtTheLimit()
    {
        using EndlessSpaces endless = new();

        ProfileFormatException thrown = Assert.Throws<ProfileFormatException>(() => SensorProfileReader.Read(endless));

        Assert.Contains("larger than 64 MB", thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_RandomDamage_ThrowsOurExceptionOrReads()
    {
        byte[] whole = Encoding.UTF8.GetBytes(ProfileText.Of(SampleProfiles.Bounds()));
        Random random = new(20260418);
        int refused = 0;
        for (int trial = 0; trial < 500; trial++)
        {
            byte[] damaged = [.. whole];
            damaged[random.Next(damaged.Length)] = (byte)random.Next(256);
            using MemoryStream stream = new(damaged);
            Exception? thrown = Record.Exception(() => SensorProfileReader.Read(stream));
            if (thrown is not null)
            {
                Assert.IsType<ProfileFormatException>(thrown);
                refused++;
            }
        }

        Assert.InRange(refused, 50, 499);
    }
}
