using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using SensorLab.Profiles.Json;
using SensorLab.TestData;

namespace SensorLab.Profiles.Tests;

/// <summary>
/// The quick ways of reading against the general ones: what they take, the general ones take too, as the same profile to the
/// last sign; and what we write, they do take.
/// </summary>
public sealed class DirectReadingTests
{
    private const int Damages = 80;

    public static TheoryData<string> Samples => [ProfileText.Of(SampleProfiles.ThreeIsos()), ProfileText.Of(SampleProfiles.Monochrome()), ProfileText.Of(SampleProfiles.Bounds()), ProfileText.Of(SampleProfiles.HostileStrings()), ProfileText.Of(Full())];

    [Theory]
    [MemberData(nameof(Samples), DisableDiscoveryEnumeration = true)]
    public void Read_WhatWeWrite_IsReadDirectly(string text)
    {
        byte[] document = Encoding.UTF8.GetBytes(text);

        Assert.True(SensorProfileSchema.Domains.IsPassed(document));
        Assert.Equal(text, ProfileText.Of(JsonSerializer.Deserialize(document, ProfileJson.DirectSensorProfile)!));
    }

    /// <summary>Documents with a value in place of another, a property taken out, doubled or renamed, a sign changed.</summary>
    [Theory]
    [MemberData(nameof(Samples), DisableDiscoveryEnumeration = true)]
    public void Read_DamagedDocument_IsTakenDirectlyOnlyWhereTheGeneralWayTakesTheSame(string text)
    {
        var random = new Random(20);
        int taken = 0;
        int passed = 0;
        for (int i = 0; i < Damages; i++)
        {
            byte[] document = Encoding.UTF8.GetBytes(Damaged(text, random).Replace("@G1", "\\u0047\\u0031", StringComparison.Ordinal).Replace("@half", "\\ud800", StringComparison.Ordinal));
            if (SensorProfileSchema.Domains.IsPassed(document))
            {
                passed++;
                Assert.Null(SensorProfileSchema.Domains.FirstFault(JsonElement.Parse(document)));
            }

            if (Recorded(document, ProfileJson.DirectSensorProfile) is { } direct)
            {
                taken++;
                SensorProfile? general = Recorded(document, ProfileJson.SensorProfile);
                Assert.True(general is not null, Encoding.UTF8.GetString(document));
                Assert.Equal(ProfileCheck.FirstFault(general), ProfileCheck.FirstFault(direct));
                if (ProfileCheck.FirstFault(general) is null)
                {
                    Assert.Equal(JsonSerializer.Serialize(general, ProfileJson.SensorProfile), JsonSerializer.Serialize(direct, ProfileJson.SensorProfile));
                }
            }
        }

        // Both ways are met: most harmless changes are taken, the others not.
        Assert.InRange(taken, Damages / 20, Damages - (Damages / 20));
        Assert.InRange(passed, Damages / 20, Damages - (Damages / 20));
    }

    [Theory]
    [MemberData(nameof(Samples), DisableDiscoveryEnumeration = true)]
    public void ReadFigures_AreTheProfilesOwnWithMeteredLevelsAlone(string text)
    {
        SensorProfile whole = ProfileText.Read(text);

        SensorProfile figures = SensorProfileReader.ReadFigures(Encoding.UTF8.GetBytes(text));

        SensorProfile expected = whole with
        {
            Frames = [],
            IsoProfiles = [.. whole.IsoProfiles.Select(i => i with { SnrCurve = [], Levels = [.. i.Levels.Where(l => l.Role == RoleName.Metered)] })],
        };
        Assert.Equal(ProfileText.Of(expected), ProfileText.Of(figures));
    }

    /// <summary>Every property of levels and figures set.</summary>
    private static SensorProfile Full()
    {
        SensorProfile sample = SampleProfiles.ThreeIsos();
        var parts = new VarianceParts { PixelDn2 = 1.5, PixelUncertaintyDn2 = 0.1, RowDn2 = -0.25, RowUncertaintyDn2 = 0.2, ColumnDn2 = 3e-7, ColumnUncertaintyDn2 = 0.3 };
        return sample with
        {
            IsoProfiles = [.. sample.IsoProfiles.Select(i => i with
            {
                Levels = [.. i.Levels.Select((l, n) => l with
                {
                    ApertureFNumber = 5.6,
                    LightStep = "näher",
                    RowsPerChannel = 10,
                    ColumnsPerChannel = 12,
                    PreviewCodes = [new PreviewCodes("neutral", 1, 3.5, 4, 5)],
                    Channels = [.. l.Channels.Select(c => c with
                    {
                        Pixels = 120,
                        FrameMeansDn = [1.5, 2],
                        SpotMeanDn = 3,
                        SpotMeanUncertaintyDn = 0.1,
                        TemporalParts = parts,
                        FixedPatternParts = parts,
                        BandVarianceDn2 = 0.5,
                        NeighbourCorrelation = new NeighbourCorrelation(0.1, -0.2, 0.01),
                        LowestCodeDn = 1,
                        HighestCodeDn = 16383,
                        CodeStepDn = 1.5,
                        Histogram = new CodeHistogram(3, [1, 0, 5_000_000_000]),
                    })],
                })],
            })],
        };
    }

    private static SensorProfile? Recorded(byte[] document, System.Text.Json.Serialization.Metadata.JsonTypeInfo<SensorProfile> metadata)
    {
        try
        {
            return JsonSerializer.Deserialize(document, metadata);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException)
        {
            return null;
        }
    }

    private static string Damaged(string text, Random random)
    {
        JsonNode root = JsonNode.Parse(text)!;
        JsonNode node = root;
        while (node is JsonObject or JsonArray && (node == root || random.Next(4) > 0))
        {
            JsonNode? inner = node is JsonObject o ? (o.Count > 0 ? o.ElementAt(random.Next(o.Count)).Value : null) : node.AsArray().Count > 0 ? node[random.Next(node.AsArray().Count)] : null;
            if (inner is null)
            {
                break;
            }

            node = inner;
        }

        if (node.Parent is null)
        {
            return text;
        }

        JsonNode? other = JsonNode.Parse(Values[random.Next(Values.Length)]);
        switch (random.Next(5))
        {
            case 0 when node.Parent is JsonObject parent:
                parent.Remove(node.GetPropertyName());
                break;
            case 1 when node.Parent is JsonObject parent:
                parent["later"] = other;
                break;
            case 2:
                // A property there twice.
                string json = root.ToJsonString();
                return node.Parent is JsonObject && json.IndexOf($"\"{node.GetPropertyName()}\":", StringComparison.Ordinal) is >= 0 and int at ? json.Insert(at, $"\"{node.GetPropertyName()}\":{(other is null ? "null" : other.ToJsonString())},") : json;
            case 3:
                char[] signs = root.ToJsonString().ToCharArray();
                signs[random.Next(signs.Length)] = "0.5e-,:{}[]\"x"[random.Next(13)];
                return new string(signs);
            default:
                node.ReplaceWith(other);
                break;
        }

        return root.ToJsonString();
    }

    private static readonly string[] Values =
        ["null", "0", "-0.0", "1", "1.0", "7e2", "1e-70", "-1e-70", "1e400", "1e20", "-3", "2147483648", "true", "\"x\"", "\"\"", "\"G1\"", "\"dark\"", "\"light\"", "\"note\"", "\"@G1\"", "\"@half\"", "\"é\"", "[]", "{}", "[null]", "[1]", "[{}]", "{\"value\":1,\"standardUncertainty\":0.1,\"lower95\":0,\"upper95\":2}", "{\"atLeast\":1}"];
}
