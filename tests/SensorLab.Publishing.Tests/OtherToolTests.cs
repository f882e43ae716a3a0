using System.Diagnostics;
using System.Globalization;
using System.Text;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Publishing.Archive;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;
using SensorLab.TestData;

namespace SensorLab.Publishing.Tests;

/// <summary>What we publish is read on Node, with nothing of ours: schema, profile, signature.</summary>
public sealed class OtherToolTests : IDisposable
{
    private static readonly string Tools = Path.Combine(Repository.Root, "tests", "OtherTools");

    private readonly TemporaryFolder _folder = new();

    public static TheoryData<string> Profiles => ["three-isos", "monochrome", "bounds", "hostile", "anonymous", "large-pattern"];

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Profiles))]
    public async Task Schema_OnNode_HoldsEveryWrittenProfile(string name)
    {
        WriteSchema();
        SensorProfileWriter.WriteFile(Profile(name), _folder.File("profile.json"), TestContext.Current.CancellationToken);

        Assert.Equal((0, string.Empty), await NodeAsync(Path.Combine(Tools, "validate.mjs"), _folder.File("schema.json"), _folder.File("profile.json")));
    }

    [Theory]
    [InlineData("\"sensorlab-profile\"", "\"another\"", "/format ")]
    [InlineData("\"iso\": 200", "\"iso\": \"200\"", "/isoProfiles/0/iso ")]
    [InlineData("\"standardUncertainty\": 0.004", "\"standardUncertainty\": -0.004", "/standardUncertainty ")]
    [InlineData("\"serialNumber\"", "\"serial\"", "serialNumber")]
    public Task Schema_OnNode_RefusesWhatIsNone(string old, string changed, string place) => RefusesAsync(SampleProfiles.Monochrome(), "1.", old, changed, place);

    /// <summary>Of a larger pattern a profile holds rows, columns and letters, which the schema bounds.</summary>
    [Theory]
    [InlineData("\"rows\": 6", "\"rows\": 9", "/sensor/colourFilterArray/rows ")]
    [InlineData("\"pattern\": \"GB", "\"pattern\": \"GX", "/sensor/colourFilterArray/pattern ")]
    public Task Schema_OnNode_RefusesALargePatternThatIsNone(string old, string changed, string place) => RefusesAsync(SampleProfiles.LargePattern(), "1.2", old, changed, place);

    [Fact]
    public async Task ReadmeScript_OnNode_AnswersAsPlacementDoes()
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        SensorProfileWriter.WriteFile(profile, _folder.File("profile.json"), TestContext.Current.CancellationToken);
        string readme = await File.ReadAllTextAsync(Path.Combine(Repository.Root, "src", "SensorLab.Profiles", "README.md"), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_folder.File("headroom.mjs"), readme.Split("```js\n")[1].Split("```")[0], TestContext.Current.CancellationToken);

        (int status, string output) = await NodeAsync(_folder.File("headroom.mjs"), _folder.File("profile.json"), "400", "2.7");

        double headroom = PlacementAnswer.Of(profile, new PlacementQuestion { Iso = 400, ToneEv = 2.7 }).HeadroomEv!.Value!.Value;
        Assert.Equal((0, string.Create(CultureInfo.InvariantCulture, $"{headroom:F2} EV to the clip\n")), (status, output));
        Assert.NotEqual(0, (await NodeAsync(_folder.File("headroom.mjs"), _folder.File("profile.json"), "800", "2.7")).Status);
    }

    [Fact]
    public async Task Signature_OnNode_IsVerifiedByTheStandardsAlone()
    {
        using SigningKey key = KeyOf(_folder.File("k.pem"));
        PublishedBundle bundle = Publication.Make(SampleProfiles.Monochrome(), SampleBundles.Accepting with { Key = key }, TestContext.Current.CancellationToken);
        foreach (ArchiveFile file in SampleBundles.Contents(bundle).Where(f => f.Path.StartsWith("manifest", StringComparison.Ordinal)))
        {
            await File.WriteAllBytesAsync(_folder.File(file.Path), file.Bytes.ToArray(), TestContext.Current.CancellationToken);
        }

        string[] words = [Path.Combine(Tools, "verify-signature.mjs"), _folder.File("manifest.json"), _folder.File("manifest.json.jws"), _folder.File("k.pub.pem")];

        Assert.Equal((0, key.Public.Thumbprint + "\n"), await NodeAsync(words));
        await File.AppendAllTextAsync(_folder.File("manifest.json"), " ", TestContext.Current.CancellationToken);
        Assert.Equal((1, "not valid\n"), await NodeAsync(words));
    }

    private static SigningKey KeyOf(string path)
    {
        KeyPairFiles.Create(path);
        return SigningKey.ReadFile(path);
    }

    private static SensorProfile Profile(string name) => name switch
    {
        "three-isos" => SampleProfiles.ThreeIsos(),
        "monochrome" => SampleProfiles.Monochrome(),
        "bounds" => SampleProfiles.Bounds(),
        "hostile" => SampleProfiles.HostileStrings(),
        "large-pattern" => SampleProfiles.LargePattern(),
        _ => AnonymousProfile.Of(SampleProfiles.ThreeIsos()),
    };

    private static async Task<(int Status, string Output)> NodeAsync(params string[] words)
    {
        var start = new ProcessStartInfo("node", words) { RedirectStandardOutput = true, RedirectStandardError = true, StandardOutputEncoding = Encoding.UTF8 };
        using Process node = Process.Start(start)!;
        Task<string> error = node.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string output = await node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        TestContext.Current.SendDiagnosticMessage(await error);
        return (node.ExitCode, output);
    }

    private async Task RefusesAsync(SensorProfile profile, string version, string old, string changed, string place)
    {
        WriteSchema();
        SensorProfileWriter.WriteFile(profile, _folder.File("profile.json"), TestContext.Current.CancellationToken);
        string text = await File.ReadAllTextAsync(_folder.File("profile.json"), TestContext.Current.CancellationToken);
        Assert.Contains(old, text, StringComparison.Ordinal);
        Assert.Contains($"\"formatVersion\": \"{version}", text, StringComparison.Ordinal);
        await File.WriteAllTextAsync(_folder.File("profile.json"), text.Replace(old, changed, StringComparison.Ordinal), TestContext.Current.CancellationToken);

        (int status, string output) = await NodeAsync(Path.Combine(Tools, "validate.mjs"), _folder.File("schema.json"), _folder.File("profile.json"));

        Assert.Equal(1, status);
        Assert.Contains(place, output, StringComparison.Ordinal);
    }

    private void WriteSchema() => File.WriteAllText(_folder.File("schema.json"), SensorProfileSchema.Json);
}
