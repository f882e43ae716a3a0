using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json.Nodes;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Shelf.Tests;

public sealed class ProfileShelfTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly SimulatedFleet _fleet = new();

    public void Dispose() => _folder.Dispose();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private ProfileShelf Shelf => new(_folder.File("shelf"));

    [Fact]
    public async Task Add_TheSameProfileIndentedAnew_IsOneProfileAsItCameFirst()
    {
        var profile = ShelfDocument.Of(SampleProfiles.ThreeIsos());
        byte[] flat = Encoding.UTF8.GetBytes(JsonNode.Parse(profile.Bytes.Span)!.ToJsonString(new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }));

        IReadOnlyList<TakenIn> taken = await AddAsync(profile, profile);
        IReadOnlyList<TakenIn> again = await AddAsync(ShelfDocument.Of(flat));

        Assert.Equal([true, false], taken.Select(t => t.IsNew));
        Assert.Equal([false], again.Select(t => t.IsNew));
        Assert.Single(Shelf.Contents(Token).Profiles);
        Assert.Equal(profile.Bytes.ToArray(), await File.ReadAllBytesAsync(Shelf.PathOf(profile.Key), Token));
    }

    [Fact]
    public void Key_WhiteSpaceWithinText_Counts() => Assert.NotEqual(
        ShelfDocument.Of(SampleProfiles.ThreeIsos() with { Assumptions = ["a b \\\" c"] }).Key,
        ShelfDocument.Of(SampleProfiles.ThreeIsos() with { Assumptions = ["a b \\\"  c"] }).Key);

    [Fact]
    public void Key_OfADocumentThatBeginsAnywhere_IsThatOfItsSignsWithoutBlanks()
    {
        string[] texts = ["a \\ \" b", "a\tlong  text \r\n of \"quoted\"   words, longer than any vector\\", " "];
        byte[] document = ShelfDocument.Of(SampleProfiles.ThreeIsos() with { Assumptions = texts }).Bytes.ToArray();
        string expected = Convert.ToHexStringLower(SHA256.HashData(WithoutBlanks(document)));

        Assert.All(Enumerable.Range(0, 70), pad => Assert.Equal(expected, ShelfDocument.Of([.. Enumerable.Repeat((byte)' ', pad), .. document]).Key));
    }

    [Fact]
    public async Task Contents_OfBodies_AreByNameThenTimeAndTellTheNewest()
    {
        await AddAsync(Documents((1, 2), (0, 1), (1, 0), (0, 0)));

        ShelfContents contents = Shelf.Contents(Token);

        Assert.Equal([("LM-2", "20000"), ("LM-2", "20000"), ("LM-3", "20001"), ("LM-3", "20001")], contents.Profiles.Select(p => (p.Body.Model!, p.Body.SerialNumber!)));
        Assert.All(contents.Bodies, body => Assert.Equal(contents.Of(body).Max(p => p.CreatedUtc), contents.NewestOf(body).CreatedUtc));
        Assert.Equal([100, 200], contents.Profiles[0].Isos);
    }

    [Fact]
    public async Task Add_ProfilesWithoutSerialNumber_AreNoOneBody()
    {
        SensorProfile anonymous = SampleProfiles.ThreeIsos() with { Body = new BodyIdentity("Larkmoor", "LM-2", null, "1.1") };

        await AddAsync(ShelfDocument.Of(anonymous), ShelfDocument.Of(anonymous with { CreatedUtc = null }));

        Assert.Equal(2, Shelf.Contents(Token).Bodies.Count);
    }

    [Fact]
    public async Task BodyOf_TextThatFitsNoneOrSeveral_NamesWhatThereIs()
    {
        await AddAsync(Documents((0, 0), (1, 0), (3, 0)));
        ShelfContents contents = Shelf.Contents(Token);

        Assert.Equal("20003", contents.BodyOf("20003").SerialNumber);
        Assert.Equal("20001", contents.BodyOf("lm-3").SerialNumber);
        Assert.Equal(2, Assert.Throws<BodyUnknownException>(() => contents.BodyOf("LM-2")).Bodies.Count);
        Assert.Equal(3, Assert.Throws<BodyUnknownException>(() => contents.BodyOf("99")).Bodies.Count);
    }

    [Fact]
    public async Task Contents_FilesLaidInAndTakenOutByHand_AreFollowed()
    {
        ShelfDocument[] documents = Documents((0, 0), (0, 1), (1, 0));
        await AddAsync(documents[..2]);

        await File.WriteAllBytesAsync(Shelf.PathOf(documents[2].Key), documents[2].Bytes.ToArray(), Token);
        File.Delete(Shelf.PathOf(documents[0].Key));

        Assert.Equal([documents[1].Key, documents[2].Key], Shelf.Contents(Token).Profiles.Select(p => p.Key));
    }

    [Fact]
    public async Task Contents_FileChangedSinceItWasKept_IsLeftOutAndNamedAndTheOthersStay()
    {
        ShelfDocument[] documents = Documents((0, 0), (1, 0));
        await AddAsync(documents[..1]);
        await File.WriteAllBytesAsync(Shelf.PathOf(documents[1].Key), ShelfDocument.Of(SampleProfiles.Bounds()).Bytes.ToArray(), Token);
        await File.WriteAllTextAsync(Shelf.PathOf(new string('a', 64)), "{", Token);

        ShelfContents contents = Shelf.Contents(Token);

        Assert.Equal([documents[0].Key], contents.Profiles.Select(p => p.Key));
        Assert.Equal(2, contents.Damaged.Count);
        Assert.Contains(contents.Damaged, d => d.Fault!.Message.Contains("changed since it was kept", StringComparison.Ordinal));
        Assert.Throws<ProfileFormatException>(() => Shelf.Read(documents[1].Key));
    }

    [Fact]
    public async Task Add_FileThatIsNoProfile_IsRefusedAloneAndHostileTextChangesNothingElse()
    {
        var sound = ShelfDocument.Of(SampleProfiles.ThreeIsos());
        var hostile = ShelfDocument.Of(SampleProfiles.HostileStrings());
        await File.WriteAllTextAsync(_folder.File("x.json"), "{}", Token);

        IReadOnlyList<TakenIn> taken = await Shelf.AddAsync(
            [new("x.json", _ => ShelfDocument.ReadFile(_folder.File("x.json"))), new("none", _ => ShelfDocument.ReadFile(_folder.File("none.json"))), new("h", _ => hostile), new("s", _ => sound)],
            new Progress<int>(),
            Token);

        Assert.IsType<ProfileFormatException>(taken[0].Fault);
        Assert.IsAssignableFrom<IOException>(taken[1].Fault);
        Assert.Equal([false, false, true, true], taken.Select(t => t.IsNew));
        Assert.Equal(hostile.Profile.Body.Maker!.Replace('\0', '\uFFFD'), Shelf.Contents(Token).Profiles.Single(p => p.Key == hostile.Key).Body.Maker);
        Assert.Equal("20417", Shelf.Contents(Token).BodyOf("20417").SerialNumber);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Rebuild_IndexThatIsGoneOrDamaged_IsAsBefore(bool isDamaged)
    {
        await AddAsync(Documents((0, 0), (0, 1), (1, 0)));
        ShelfContents before = Shelf.Contents(Token);
        if (isDamaged)
        {
            await File.WriteAllBytesAsync(Shelf.IndexPath, new byte[100_000], Token);
            Assert.Contains("rebuild", Assert.Throws<ShelfException>(() => Shelf.Contents(Token)).Remedy, StringComparison.Ordinal);
        }
        else
        {
            File.Delete(Shelf.IndexPath);
        }

        Assert.Empty(Shelf.Rebuild(new Progress<(int, int)>(), Token));

        Assert.Equal(before.Profiles.Select(p => (p.Key, p.Body, p.Firmware, p.CreatedUtc)), Shelf.Contents(Token).Profiles.Select(p => (p.Key, p.Body, p.Firmware, p.CreatedUtc)));
    }

    [Fact]
    public async Task Add_ManyRunsAtOnceOfTheSame_KeepEachOnceAndLeaveNothingBehind()
    {
        ShelfDocument[] documents = Documents([.. Enumerable.Range(0, 12).Select(i => (i % 4, i / 4))]);

        IReadOnlyList<TakenIn>[] runs = await Task.WhenAll(Enumerable.Range(0, 4).Select(run => Task.Run(() => AddAsync([.. documents.Skip(3 * run), .. documents.Take(3 * run)]))));

        Assert.All(runs, run => Assert.All(run, t => Assert.Null(t.Fault)));
        Assert.Equal(documents.Select(d => d.Key).Order(StringComparer.Ordinal), Shelf.Contents(Token).Profiles.Select(p => p.Key).Order(StringComparer.Ordinal));
        Assert.Empty(Directory.EnumerateFileSystemEntries(Shelf.Folder, ".sensorlab-*", SearchOption.AllDirectories));
    }

    [Fact]
    public async Task Gaps_BesideTheRestOfTheShelf_AreIsosAndLaterFirmware()
    {
        var wide = new SimulatedFleet(isos: 3);
        await AddAsync([ShelfDocument.Of(wide.Profile(0, 0)), .. Documents((0, 1), (3, 5), (1, 0))]);
        ShelfContents contents = Shelf.Contents(Token);

        IReadOnlyDictionary<string, BodyGaps> gaps = BodyGaps.Of(contents);

        BodyGaps first = gaps[contents.BodyOf("20000").Id];
        Assert.Equal([300], first.IsosOfEarlier);
        Assert.Equal(["1.1"], first.FirmwaresOfModel);
        Assert.Empty(gaps[contents.BodyOf("20003").Id].FirmwaresOfModel);
        Assert.Empty(gaps[contents.BodyOf("20001").Id].IsosOfModel);
    }

    private ShelfDocument[] Documents(params (int Body, int Set)[] sets) => [.. sets.Select(s => ShelfDocument.Of(_fleet.Profile(s.Body, s.Set)))];

    private Task<IReadOnlyList<TakenIn>> AddAsync(params ShelfDocument[] documents) =>
        Shelf.AddAsync([.. documents.Select(d => new ShelfCandidate("a profile", _ => d))], new Progress<int>(), Token);

    private static byte[] WithoutBlanks(byte[] document)
    {
        bool isText = false;
        bool isEscaped = false;
        var kept = new List<byte>();
        foreach (byte sign in document)
        {
            isText ^= sign == '"' && !isEscaped;
            isEscaped = isText && sign == '\\' && !isEscaped;
            if (isText || !" \r\n\t".Contains((char)sign, StringComparison.Ordinal))
            {
                kept.Add(sign);
            }
        }

        return [.. kept];
    }
}
