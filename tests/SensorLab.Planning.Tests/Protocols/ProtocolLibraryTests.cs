using System.Text.Json;
using System.Xml.Linq;
using Json.Schema;
using SensorLab.Planning.Protocols;
using SensorLab.TestData;

namespace SensorLab.Planning.Tests.Protocols;

public sealed class ProtocolLibraryTests
{
    private static readonly string Folder = Path.Combine(Repository.Root, "protocols");

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Folder, "protocol.schema.json")));

    public static TheoryData<string> Names => [.. ProtocolLibrary.Names];

    [Fact]
    public void Names_Library_AreTheSixWithWordsAndData()
    {
        string[] expected = ["after-an-update", "evening", "first-acquaintance", "lights", "long-exposures", "looks"];

        Assert.Equal(expected, ProtocolLibrary.Names);
        Assert.Equal(expected, Directory.GetFiles(Folder, "*.json").Select(f => Path.GetFileName(f)).Where(f => f != "protocol.schema.json").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal));
        Assert.Equal(expected, Directory.GetFiles(Folder, "*.md").Select(f => Path.GetFileNameWithoutExtension(f)).Where(f => f is not ("references" or "measurement-model")).Order(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Text_InTheProgram_IsTheRepositorysAndValid(string name)
    {
        string text = ProtocolLibrary.TextOf(name);

        Assert.Equal(File.ReadAllText(Path.Combine(Folder, name + ".json")), text);
        Assert.True(Schema.Evaluate(JsonDocument.Parse(text).RootElement).IsValid);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Find_Name_GivesWhatTheDocumentSays(string name)
    {
        JsonElement document = JsonDocument.Parse(ProtocolLibrary.TextOf(name)).RootElement;

        Protocol protocol = ProtocolLibrary.Find(name)!;

        Assert.Equal(name, protocol.Name);
        Assert.Equal(document.GetProperty("version").GetInt32(), protocol.Version);
        Assert.Equal(document.GetProperty("bracket").GetProperty("fineStepsPerStop").GetInt32(), protocol.Bracket.FineStepsPerStop);
        Assert.Equal(document.GetProperty("dark").GetProperty("ladderSeconds").GetArrayLength(), protocol.Dark.LadderSeconds.Count);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Words_Protocol_NameItsVersionAndEveryCautionAndShowPictures(string name)
    {
        string words = File.ReadAllText(Path.Combine(Folder, name + ".md"));
        Protocol protocol = ProtocolLibrary.Find(name)!;

        Assert.Contains($"Protocol `{name}`, version {protocol.Version}.", words, StringComparison.Ordinal);
        foreach (string caution in new[] { "**Lamps**", "**The sun**", "**Mains**", "**Ladders and heights**", "qualified people" })
        {
            Assert.Contains(caution, words, StringComparison.Ordinal);
        }

        string[] pictures = [.. words.Split("](drawings/").Skip(1).Select(p => p.Split(')')[0])];
        Assert.NotEmpty(pictures);
        Assert.All(pictures, picture => Assert.Equal("svg", XDocument.Load(Path.Combine(Folder, "drawings", picture)).Root!.Name.LocalName));
    }

    [Fact]
    public void Find_UnknownName_IsNull() => Assert.Null(ProtocolLibrary.Find("midnight"));
}
