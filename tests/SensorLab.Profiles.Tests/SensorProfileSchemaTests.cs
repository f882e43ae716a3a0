using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

public sealed class SensorProfileSchemaTests
{
    // The reader registers a schema by its id, once a process.
    internal static readonly JsonSchema Schema = JsonSchema.FromText(SensorProfileSchema.Json);
    private static readonly string Full = ProfileText.Of(WithOneIso(SampleProfiles.ThreeIsos()));

    [Fact]
    public void Schema_Itself_IsValidDraft202012() => Assert.True(IsValid(MetaSchemas.Draft202012, SensorProfileSchema.Json));

    [Theory]
    [MemberData(nameof(SensorProfileReaderTests.Samples), MemberType = typeof(SensorProfileReaderTests), DisableDiscoveryEnumeration = true)]
    public void Schema_WrittenProfile_IsValid(string text) => Assert.True(IsValid(Schema, text));

    [Fact]
    public void Schema_PreviewsWithAllTheirParts_AreValidAndHeldToTheirDomains()
    {
        SensorProfile profile = WithOneIso(SampleProfiles.ThreeIsos());
        IsoProfile iso = profile.IsoProfiles[0];
        SensorProfile full = profile with
        {
            IsoProfiles =
            [
                iso with
                {
                    Levels = [iso.Levels[1] with { PreviewCodes = [new PreviewCodes("neutral", 0, 120.5, 118, 117)] }],
                    Previews = [iso.Previews[0] with { ClippingChannel = "R", HiddenShadowEv = SampleProfiles.Measured(-1, 0.1) }],
                },
            ],
        };
        string text = ProfileText.Of(full);

        Assert.True(IsValid(Schema, text));
        Assert.False(IsValid(Schema, text.Replace("120.5", "256.5", StringComparison.Ordinal)));
        Assert.False(IsValid(Schema, text.Replace("\"clippingChannel\": \"R\"", "\"clippingChannel\": \"G1\"", StringComparison.Ordinal)));
    }

    [Fact]
    public void Schema_FurtherPropertiesAnywhere_AreAllowed()
    {
        JsonNode document = JsonNode.Parse(Full)!;
        AddEverywhere(document);

        Assert.True(IsValid(Schema, document.ToJsonString()));
    }

    [Fact]
    public void Schema_AbsentFigures_AreAllowed()
    {
        JsonNode document = JsonNode.Parse(Full)!;
        document["isoProfiles"]![0]!["latitude"]!.AsObject().Remove("aboveEv");
        document["isoProfiles"]![0]!["channels"]![0]!.AsObject().Remove("gainElectronPerDn");

        Assert.True(IsValid(Schema, document.ToJsonString()));
    }

    [Theory]
    [InlineData("", "format formatVersion software body recordingMode sensor conditions middleGrey delivery assumptions isoProfiles lights findings frames")]
    [InlineData("software", "name version")]
    [InlineData("body", "maker model serialNumber firmware")]
    [InlineData("recordingMode", "bitDepth compression shutter description")]
    [InlineData("sensor", "widthPixels heightPixels colourFilterArray")]
    [InlineData("conditions", "light lens apertureFNumber temperatureCelsius protocol region")]
    [InlineData("conditions/region", "x y width height")]
    [InlineData("middleGrey", "method meterStepEv meterStandardUncertaintyEv readings")]
    [InlineData("delivery", "widthPixels heightPixels")]
    [InlineData("isoProfiles/0", "iso meterReadings meterStandardUncertaintyEv channels latitude snrCurve levels previews")]
    [InlineData("isoProfiles/0/channels/0", "name latitude")]
    [InlineData("isoProfiles/0/channels/0/gainElectronPerDn", "value standardUncertainty lower95 upper95")]
    [InlineData("isoProfiles/0/channels/0/latitude", "belowEv")]
    [InlineData("isoProfiles/0/channels/0/latitude/belowEv/0", "snr")]
    [InlineData("isoProfiles/0/channels/0/dngNoiseProfile", "scale offset")]
    [InlineData("isoProfiles/0/latitude", "limitingChannel limitingChannelBelow belowEv")]
    [InlineData("isoProfiles/0/snrCurve/0", "ev")]
    [InlineData("isoProfiles/0/levels/0", "role exposureSeconds lightStep ev frames pixelsPerChannel channels")]
    [InlineData("isoProfiles/0/levels/0/channels/0", "name meanDn temporalVarianceDn2 fixedPatternVarianceDn2 clippedFraction usedInFit")]
    [InlineData("isoProfiles/0/levels/0/channels/0/temporalParts", "pixelDn2 pixelUncertaintyDn2 rowDn2 rowUncertaintyDn2 columnDn2 columnUncertaintyDn2")]
    [InlineData("isoProfiles/0/levels/0/channels/0/histogram", "firstCodeDn counts")]
    [InlineData("isoProfiles/0/previews/0", "look toneCurve")]
    [InlineData("isoProfiles/0/previews/0/toneCurve/0", "ev code")]
    [InlineData("lights/0", "name channelEv")]
    [InlineData("findings/0", "code severity iso channel frames size sizeUnit message remedy")]
    [InlineData("frames/0", "file sha256 role iso exposureSeconds used")]
    public void Schema_RequiredPropertyMissing_IsInvalid(string place, string properties)
    {
        foreach (string property in properties.Split(' '))
        {
            JsonNode document = JsonNode.Parse(Full)!;

            Assert.True(At(document, place).AsObject().Remove(property), property);

            Assert.False(IsValid(Schema, document.ToJsonString()), $"{place} without {property}");
        }
    }

    [Theory]
    [InlineData("format", "\"sensorlab-plan\"")]
    [InlineData("formatVersion", "\"2.0\"")]
    [InlineData("formatVersion", "\"1\"")]
    [InlineData("createdUtc", "null")]
    [InlineData("createdUtc", "\"2026-04-18T11:30:00+02:00\"")]
    [InlineData("software/name", "null")]
    [InlineData("software/version", "1")]
    [InlineData("body/maker", "3")]
    [InlineData("recordingMode/bitDepth", "0")]
    [InlineData("recordingMode/bitDepth", "33")]
    [InlineData("recordingMode/bitDepth", "14.5")]
    [InlineData("sensor/widthPixels", "0")]
    [InlineData("sensor/colourFilterArray", "\"RGBG\"")]
    [InlineData("sensor/colourFilterArray", "{\"rows\": 6, \"columns\": 6}")]
    [InlineData("sensor/colourFilterArray", "{\"rows\": 9, \"columns\": 1, \"pattern\": \"RGBRGBRGB\"}")]
    [InlineData("sensor/colourFilterArray", "{\"rows\": 2, \"columns\": 2, \"pattern\": \"RGBW\"}")]
    [InlineData("conditions/apertureFNumber", "0")]
    [InlineData("conditions/temperatureCelsius", "-300")]
    [InlineData("conditions/region", "[0, 0, 1, 1]")]
    [InlineData("conditions/region/x", "-1")]
    [InlineData("conditions/region/width", "0")]
    [InlineData("middleGrey/method", "\"guess\"")]
    [InlineData("middleGrey/meterStepEv", "0")]
    [InlineData("middleGrey/meterStepEv", "null")]
    [InlineData("middleGrey/meterStandardUncertaintyEv", "-0.1")]
    [InlineData("middleGrey/meterStandardUncertaintyEv", "null")]
    [InlineData("middleGrey/readings", "0")]
    [InlineData("middleGrey/readings", "null")]
    [InlineData("delivery/widthPixels", "0")]
    [InlineData("assumptions/0", "\"\"")]
    [InlineData("isoProfiles", "[]")]
    [InlineData("isoProfiles/0/iso", "0")]
    [InlineData("isoProfiles/0/iso", "\"100\"")]
    [InlineData("isoProfiles/0/meterReadings", "0")]
    [InlineData("isoProfiles/0/meterStandardUncertaintyEv", "-1")]
    [InlineData("isoProfiles/0/channels", "[]")]
    [InlineData("isoProfiles/0/channels/0/name", "\"G\"")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn", "null")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn", "512")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn", "{}")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn", "{\"atLeast\": 1, \"atMost\": 2}")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn", "{\"atLeast\": 1, \"value\": 2}")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn", "{\"atMost\": 1, \"degreesOfFreedom\": 2}")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn", "{\"atMost\": null}")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn/atMost", "3")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn/value", "\"3\"")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn/standardUncertainty", "-0.1")]
    [InlineData("isoProfiles/0/channels/0/blackLevelDn/degreesOfFreedom", "0")]
    [InlineData("isoProfiles/0/channels/0/latitude/belowEv/0/snr", "0")]
    [InlineData("isoProfiles/0/channels/0/latitude/belowEv/0/spanEv", "{}")]
    [InlineData("isoProfiles/0/latitude/limitingChannel", "\"green\"")]
    [InlineData("isoProfiles/0/latitude/limitingChannelBelow", "\"X\"")]
    [InlineData("isoProfiles/0/latitude/aboveEv", "{\"value\": 3}")]
    [InlineData("isoProfiles/0/latitude/bandsEndEv", "5.5")]
    [InlineData("isoProfiles/0/snrCurve/0/ev", "null")]
    [InlineData("isoProfiles/0/snrCurve/0/snrTotal", "12")]
    [InlineData("isoProfiles/0/levels/0/role", "\"flat\"")]
    [InlineData("isoProfiles/0/levels/0/role", "\"light\"")]
    [InlineData("isoProfiles/0/levels/0/ev", "0")]
    [InlineData("isoProfiles/0/levels/0/exposureSeconds", "-1")]
    [InlineData("isoProfiles/0/levels/0/frames", "0")]
    [InlineData("isoProfiles/0/levels/0/channels", "[]")]
    [InlineData("isoProfiles/0/levels/0/channels/0/clippedFraction", "1.01")]
    [InlineData("isoProfiles/0/levels/0/channels/0/meanUncertaintyDn", "-1")]
    [InlineData("isoProfiles/0/levels/0/channels/0/temporalVarianceDn2", "{}")]
    [InlineData("isoProfiles/0/levels/0/channels/0/temporalParts/rowUncertaintyDn2", "-1")]
    [InlineData("isoProfiles/0/levels/0/channels/0/codeStepDn", "0")]
    [InlineData("isoProfiles/0/levels/0/channels/0/usedInFit", "\"yes\"")]
    [InlineData("isoProfiles/0/levels/0/channels/0/histogram/counts", "[]")]
    [InlineData("isoProfiles/0/levels/0/channels/0/histogram/counts", "[-1]")]
    [InlineData("isoProfiles/0/previews/0/clipEv", "2.4")]
    [InlineData("isoProfiles/0/previews/0/toneCurve/0/code", "256")]
    [InlineData("lights/0/name", "\"\"")]
    [InlineData("lights/0/channelEv", "{}")]
    [InlineData("lights/0/channelEv", "{\"green\": 0}")]
    [InlineData("lights/0/channelEv/R", "null")]
    [InlineData("findings/0/code", "\"Dark_Lit\"")]
    [InlineData("findings/0/code", "\"dark\"")]
    [InlineData("findings/0/severity", "\"error\"")]
    [InlineData("findings/0/iso", "0")]
    [InlineData("findings/0/channel", "\"red\"")]
    [InlineData("findings/0/frames", "null")]
    [InlineData("findings/0/message", "\"\"")]
    [InlineData("findings/0/size", "1")]
    [InlineData("findings/1/size", "null")]
    [InlineData("findings/1/sizeUnit", "\"percent\"")]
    [InlineData("frames/0/file", "\"\"")]
    [InlineData("frames/0/sha256", "\"ABC\"")]
    [InlineData("frames/0/role", "\"flat\"")]
    [InlineData("frames/0/iso", "0")]
    [InlineData("frames/0/exposureSeconds", "-1")]
    [InlineData("frames/0/used", "1")]
    public void Schema_WrongValue_IsInvalid(string place, string value)
    {
        JsonNode document = JsonNode.Parse(Full)!;
        int split = place.LastIndexOf('/');
        JsonNode parent = At(document, split < 0 ? string.Empty : place[..split]);
        JsonNode? replacement = JsonNode.Parse(value);
        if (parent is JsonArray array)
        {
            array[int.Parse(place[(split + 1)..], null)] = replacement;
        }
        else
        {
            parent[place[(split + 1)..]] = replacement;
        }

        Assert.False(IsValid(Schema, document.ToJsonString()));
    }

    [Fact]
    public void Schema_SaturationMethod_NeedsNoMeter()
    {
        JsonNode document = JsonNode.Parse(Full)!;
        document["middleGrey"] = JsonNode.Parse("{\"method\": \"saturation\", \"meterStepEv\": null, \"meterStandardUncertaintyEv\": null, \"readings\": null}");

        Assert.True(IsValid(Schema, document.ToJsonString()));
    }

    // Every kind of object once or twice: three whole ISOs would make 200 evaluations slow.
    private static SensorProfile WithOneIso(SensorProfile profile)
    {
        IsoProfile iso = profile.IsoProfiles[0];
        return profile with { IsoProfiles = [iso with { SnrCurve = [.. iso.SnrCurve.Take(2)], Levels = [.. iso.Levels.Take(2)] }] };
    }

    private static bool IsValid(JsonSchema schema, string text)
    {
        using JsonDocument document = JsonDocument.Parse(text);
        return schema.Evaluate(document.RootElement).IsValid;
    }

    private static JsonNode At(JsonNode document, string place) =>
        place.Split('/', StringSplitOptions.RemoveEmptyEntries)
            .Aggregate(document, (node, step) => (node is JsonArray array ? array[int.Parse(step, null)] : node[step])!);

    private static void AddEverywhere(JsonNode? node)
    {
        if (node is JsonArray array)
        {
            foreach (JsonNode? item in array)
            {
                AddEverywhere(item);
            }
        }
        else if (node is JsonObject item)
        {
            bool isChannelMap = item.ContainsKey("R") || item.ContainsKey("Y");
            foreach (JsonNode? inner in item.Select(p => p.Value).ToArray())
            {
                AddEverywhere(inner);
            }

            if (!isChannelMap)
            {
                item["moonPhase"] = "waxing";
            }
        }
    }
}
