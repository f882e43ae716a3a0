using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Tests;

public sealed class FrameSetFolderTests
{
    [Theory]
    [InlineData("dark/a.dng", FrameRole.Dark, null)]
    [InlineData("Metered/a.dng", FrameRole.Metered, null)]
    [InlineData("iso 100/BRACKET/a.dng", FrameRole.Bracket, null)]
    [InlineData("bracket/iso 100/card 2/a.dng", FrameRole.Bracket, null)]
    [InlineData("bracket/dark/a.dng", FrameRole.Dark, null)]
    [InlineData("light/tungsten/a.dng", FrameRole.Light, "tungsten")]
    [InlineData("light/tungsten/late/a.dng", FrameRole.Light, "tungsten")]
    [InlineData("light/a.dng", FrameRole.Light, null)]
    [InlineData("a.dng", null, null)]
    [InlineData("darkroom/a.dng", null, null)]
    [InlineData("bracket.dng", null, null)]
    public async Task Read_Folders_GiveTheRole(string file, FrameRole? role, string? light)
    {
        using MadeUpFolder folder = new MadeUpFolder().Add(file);

        SetFrame frame = Assert.Single((await folder.ReadAsync()).Frames);

        Assert.Equal((file, role, light), (frame.File, frame.Role, frame.Light));
    }

    [Fact]
    public async Task Read_OtherFiles_AreIgnoredAndCounted()
    {
        using MadeUpFolder folder = new MadeUpFolder()
            .Add("bracket/a.dng").Add("bracket/a.jpg").Add("notes.txt").Add("bracket/._a.dng").AddTable("file,note\nbracket/a.dng,sharp\n");

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Single(contents.Frames);
        Assert.Equal(3, contents.FilesIgnored);
        Assert.Empty(contents.Findings);
    }

    [Theory]
    [InlineData("malformed", FindingCode.FrameUnreadable, "points behind the file's end.")]
    [InlineData("locked", FindingCode.FrameUnreadable, "Access is denied.")]
    [InlineData("unsupported", FindingCode.FrameUnreadable, "This maker's format is not known.")]
    [InlineData("unsuitable", FindingCode.FrameUnsuitable, "The data are lossy.")]
    public async Task Read_FileThatDoesNotOpen_IsAFindingAndTheRestGoesOn(string text, string code, string reason)
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("dark/a.dng").Add("bracket/b.dng", text).Add("metered/c.dng");

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Equal(["dark/a.dng", "metered/c.dng"], contents.Frames.Select(f => f.File));
        Assert.Equal([new RejectedFile("bracket/b.dng", FrameRole.Bracket)], contents.Rejected);
        Finding finding = Assert.Single(contents.Findings);
        Assert.Equal((code, FindingSeverity.Warning), (finding.Code, finding.Severity));
        Assert.Equal(["bracket/b.dng"], finding.Frames);
        Assert.Contains(reason, finding.Message, StringComparison.Ordinal);
        Assert.NotEmpty(finding.Remedy);
    }

    [Fact]
    public async Task Read_UnsuitableFile_KeepsItsOwnRemedy()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("dark/a.dng", "unsuitable");

        Assert.Equal("Record uncompressed raw files.", Assert.Single((await folder.ReadAsync()).Findings).Remedy);
    }

    [Fact]
    public async Task Read_TableInPlaceOfSubfolders_GivesRolesAndMetadata()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("a.dng").Add("deep/b.dng").AddTable(
            "file,role,iso,exposureSeconds,aperture,lightStep,light,look,mode,lens,temperatureCelsius,note\n"
            + "a.dng,bracket,800,1/250,8,near,,vivid,quiet,50 mm,21.5,x\n"
            + "deep\\b.dng,Light,,0.5,0,,stage lamp,,,,,\n");

        SetFrame[] frames = [.. (await folder.ReadAsync()).Frames];

        FrameMetadata a = frames[0].Raw.Metadata;
        Assert.Equal((FrameRole.Bracket, "near", null), (frames[0].Role, frames[0].LightStep, frames[0].Light));
        Assert.Equal((800, 0.004, 8.0), (a.Iso, a.ExposureSeconds, a.ApertureFNumber));
        Assert.Equal(("vivid", "quiet", "50 mm", 21.5), (a.Look, a.Mode.Name, a.Lens, a.TemperatureCelsius));
        FrameMetadata b = frames[1].Raw.Metadata;
        Assert.Equal((FrameRole.Light, "stage lamp"), (frames[1].Role, frames[1].Light));
        Assert.Equal((100, 0.5, 0.0, "neutral"), (b.Iso, b.ExposureSeconds, b.ApertureFNumber, b.Look));
    }

    [Fact]
    public async Task Read_RoleInTheTable_GoesBeforeTheFolders()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("light/tungsten/a.dng").Add("bracket/b.dng")
            .AddTable("file,role\nlight/tungsten/a.dng,metered\nBRACKET/B.dng,dark\n");

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Equal([FrameRole.Dark, FrameRole.Metered], contents.Frames.Select(f => f.Role!.Value));
        Assert.All(contents.Frames, f => Assert.Null(f.Light));
        Assert.Empty(contents.Findings);
    }

    [Fact]
    public async Task Read_RowWithoutFile_IsAFinding()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("dark/a.dng").AddTable("file,iso\ndark/a.dng,200\ndark/b.dng,200\n");

        FrameSetContents contents = await folder.ReadAsync();

        Finding finding = Assert.Single(contents.Findings);
        Assert.Equal((FindingCode.FrameUnreadable, FindingSeverity.Warning), (finding.Code, finding.Severity));
        Assert.Contains("line 3", finding.Message, StringComparison.Ordinal);
        Assert.Equal(200, Assert.Single(contents.Frames).Raw.Metadata.Iso);
    }

    [Fact]
    public async Task Read_RowOfAFileThatIsNoRawFile_IsOpenedAsOne()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("dark/a.bin", "malformed").AddTable("file,iso\ndark/a.bin,200\n");

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Equal(FindingCode.FrameUnreadable, Assert.Single(contents.Findings).Code);
        Assert.Equal(0, contents.FilesIgnored);
    }

    [Fact]
    public async Task Read_TableBelowTheTop_IsNotReadButNamed()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("dark/a.dng").Add("dark/frames.csv", "nonsense");

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Equal(1, contents.FilesIgnored);
        Finding finding = Assert.Single(contents.Findings);
        Assert.Equal((FindingCode.TableMisplaced, FindingSeverity.Warning), (finding.Code, finding.Severity));
        Assert.Equal(["dark/frames.csv"], finding.Frames);
    }

    [Fact]
    public async Task Read_TableInOtherLetters_IsRead()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("a.dng").Add("Frames.CSV", "file,role\na.dng,dark\n");

        Assert.Equal(FrameRole.Dark, Assert.Single((await folder.ReadAsync()).Frames).Role);
    }

    [Theory]
    [InlineData("Darks/a.dng", FindingSeverity.Note, "Darks as dark")]
    [InlineData("iso 100/BRACKET/a.dng", FindingSeverity.Note, "BRACKET as bracket")]
    [InlineData("brakcet/a.dng", FindingSeverity.Warning, "Did you mean bracket?")]
    public async Task Read_FolderInAnotherSpelling_IsSaid(string file, FindingSeverity severity, string said)
    {
        using MadeUpFolder folder = new MadeUpFolder().Add(file);

        Finding finding = Assert.Single((await folder.ReadAsync()).Findings);

        Assert.Equal((FindingCode.FolderNamed, severity), (finding.Code, finding.Severity));
        Assert.Contains(said, finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Read_RoleNone_SetsTheFrameAsideWithoutAFinding()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("dark/a.dng").Add("dark/b.dng", "malformed").AddTable("file,role\ndark/b.dng,none\n");

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Equal(["dark/a.dng"], contents.Frames.Select(f => f.File));
        Assert.Equal(["dark/b.dng"], contents.SetAside);
        Assert.Empty(contents.Findings);
        Assert.Equal(0, contents.FilesIgnored);
    }

    [Fact]
    public async Task Read_LoopsOfLinks_EndAndListEachFrameOnce()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("bracket/a.dng");
        Directory.CreateSymbolicLink(Path.Combine(folder.Path, "bracket", "again"), folder.Path);
        Directory.CreateSymbolicLink(Path.Combine(folder.Path, "bracket", "self"), Path.Combine(folder.Path, "bracket", "self"));
        Directory.CreateSymbolicLink(Path.Combine(folder.Path, "copy"), "bracket");

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Equal("bracket/a.dng", Assert.Single(contents.Frames).File);
    }

    [Fact]
    public async Task Read_LinkedFolderElsewhere_IsFollowed()
    {
        using MadeUpFolder elsewhere = new MadeUpFolder().Add("a.dng");
        using var folder = new MadeUpFolder();
        Directory.CreateSymbolicLink(Path.Combine(folder.Path, "dark"), elsewhere.Path);

        SetFrame frame = Assert.Single((await folder.ReadAsync()).Frames);

        Assert.Equal(("dark/a.dng", FrameRole.Dark), (frame.File, frame.Role!.Value));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public async Task Read_ManyFiles_OpensNoMoreThanJobsAtOnceAndKeepsTheOrder(int jobs)
    {
        using var folder = new MadeUpFolder();
        foreach (int i in Enumerable.Range(0, 40))
        {
            folder.Add($"bracket/{i:00}.dng", i % 7 == 0 ? "malformed" : string.Empty);
        }

        FrameSetContents contents = await folder.ReadAsync(jobs);

        Assert.InRange(folder.MostOpenAtOnce, 1, jobs);
        Assert.Equal(contents.Frames.Select(f => f.File).Order(StringComparer.Ordinal), contents.Frames.Select(f => f.File));
        Assert.Equal(["bracket/00.dng", "bracket/07.dng"], contents.Rejected.Take(2).Select(r => r.File));
        Assert.Equal(contents.Rejected.Select(r => r.File), contents.Findings.SelectMany(f => f.Frames));
    }

    [Fact]
    public async Task Read_NoSuchFolderOrAFile_Throws()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("file.txt");
        var reader = new FrameSetFolder(folder.Access);
        CancellationToken cancellation = TestContext.Current.CancellationToken;

        await Assert.ThrowsAsync<DirectoryNotFoundException>(() => reader.ReadAsync(Path.Combine(folder.Path, "none"), 1, cancellation));
        await Assert.ThrowsAsync<DirectoryNotFoundException>(() => reader.ReadAsync(Path.Combine(folder.Path, "file.txt"), 1, cancellation));
    }

    [Fact]
    public async Task Read_EmptyFolder_HoldsNothing()
    {
        using var folder = new MadeUpFolder();

        FrameSetContents contents = await folder.ReadAsync();

        Assert.Empty(contents.Frames);
        Assert.Empty(contents.Findings);
        Assert.Equal(0, contents.FilesIgnored);
    }

    [Fact]
    public async Task Read_Cancelled_Stops()
    {
        using MadeUpFolder folder = new MadeUpFolder().Add("dark/a.dng");
        using var source = new CancellationTokenSource();
        await source.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => new FrameSetFolder(folder.Access).ReadAsync(folder.Path, 1, source.Token));
    }
}
