using SensorLab.Frames;
using SensorLab.Simulation.Bodies;

namespace SensorLab.Simulation.Tests.Bodies;

public sealed class VirtualBodyFileTests
{
    [Fact]
    public void Parse_WhatToTextWrote_IsTheSameBody()
    {
        var body = new VirtualBody
        {
            Model = "LM-3",
            BitDepth = 12,
            BlackLevelDn = 64.5,
            ColourFilterArray = "BGGR",
            IsoSettings = [new VirtualIso { Iso = 200, GainElectronPerDn = 5, ReadNoiseElectron = 2, MiddleGreyElectron = 3000, FullWellElectron = 9000 }],
        };
        string text = VirtualBodyFile.ToText(body);
        Assert.Equal(text, VirtualBodyFile.ToText(VirtualBodyFile.Parse(text)));
        Assert.Contains("\"blackLevelDn\": 64.5", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Parse_PartOfABody_IsTheLm2Otherwise()
    {
        VirtualBody body = VirtualBodyFile.Parse("{\"fullWellElectron\": 52000}");
        Assert.Equal(52_000, body.FullWellElectron);
        Assert.Equal("LM-2", body.Model);
        Assert.Equal(2.6, body.At(100).GainElectronPerDn);
    }

    [Fact]
    public void Parse_EmptyObjects_KeepEveryDefault()
    {
        string left = """{"channelSensitivity": {}, "look": {}, "furtherLooks": [{"name": "hard"}], "shutter": {}, "shooting": {}}""";
        Assert.Equal(VirtualBodyFile.ToText(new VirtualBody { FurtherLooks = [new PreviewLook { Name = "hard" }] }), VirtualBodyFile.ToText(VirtualBodyFile.Parse(left)));
        string setting = """{"iso": 100, "gainElectronPerDn": 2, "readNoiseElectron": 3, "middleGreyElectron": 4}""";
        VirtualIso read = Assert.Single(VirtualBodyFile.Parse($$"""{"isoSettings": [{{setting}}]}""").IsoSettings);
        Assert.Equal(new VirtualIso { Iso = 100, GainElectronPerDn = 2, ReadNoiseElectron = 3, MiddleGreyElectron = 4 }, read);
    }

    [Fact]
    public void Parse_NoLook_IsABodyWithoutPreviews() => Assert.Null(VirtualBodyFile.Parse("""{"look": null, /* none */ }""").Look);

    [Theory]
    [InlineData("{\"blackLevel\": 5}", "blackLevel")]
    [InlineData("{\"bitDepth\": 17}", "bitDepth")]
    [InlineData("{\"bitDepth\": \"many\"}", "bitDepth")]
    [InlineData("{\"colourFilterArray\": \"RGBW\"}", "colourFilterArray")]
    [InlineData("{\"isoSettings\": [{\"iso\": 100}]}", "gainElectronPerDn")]
    [InlineData("{\"isoSettings\": [{\"iso\": 100, \"gainElectronPerDn\": 0, \"readNoiseElectron\": 1, \"middleGreyElectron\": 1}]}", "isoSettings[0].gainElectronPerDn")]
    [InlineData("{\"isoSettings\": []}", "isoSettings")]
    [InlineData("{\"rowNoiseElectron\": 50}", "isoSettings[0].readNoiseElectron")]
    [InlineData("{\"shutter\": {\"stepsPerStop\": 5}}", "shutter.stepsPerStop")]
    [InlineData("{\"shooting\": {\"darkFrames\": 3}}", "shooting.darkFrames")]
    [InlineData("{\"prnuPercent\": -1}", "prnuPercent")]
    [InlineData("{\"shutter\": null}", "shutter")]
    [InlineData("[]", "$")]
    [InlineData("{\"bitDepth\": 12, \"bitDepth\": 14}", "bitDepth")]
    [InlineData("{\"look\": {\"clip\": 2}}", "look")]
    [InlineData("not json", "$")]
    [InlineData("{\n\"bitDepth\": many}", "line 2")]
    public void Parse_WrongFile_NamesTheProperty(string json, string property)
    {
        MalformedFileException error = Assert.Throws<MalformedFileException>(() => VirtualBodyFile.Parse(json));
        Assert.Contains(property, error.Message, StringComparison.Ordinal);
    }
}
