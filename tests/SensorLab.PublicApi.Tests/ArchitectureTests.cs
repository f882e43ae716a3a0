using SensorLab.Frames;

namespace SensorLab.PublicApi.Tests;

/// <summary>The arrows between projects: data goes one way.</summary>
public sealed class ArchitectureTests
{
    private const string CommandLine = "SensorLab.Cli";

    /// <summary>What each project may know; the command line may know all.</summary>
    private static readonly Dictionary<string, string[]> MayKnow = new()
    {
        ["SensorLab.Files"] = [],
        ["SensorLab.Frames"] = [],
        ["SensorLab.Profiles"] = ["SensorLab.Files"],
        ["SensorLab.RawFiles"] = ["SensorLab.Files", "SensorLab.Frames"],
        ["SensorLab.Law"] = ["SensorLab.Profiles"],
        ["SensorLab.Sets"] = ["SensorLab.Frames", "SensorLab.Profiles", "SensorLab.Law"],
        ["SensorLab.Pixels"] = ["SensorLab.Frames", "SensorLab.Profiles", "SensorLab.Law", "SensorLab.Sets"],
        ["SensorLab.Measurement"] = ["SensorLab.Frames", "SensorLab.Profiles", "SensorLab.Law", "SensorLab.Sets", "SensorLab.Pixels"],
        ["SensorLab.Imaging"] = ["SensorLab.Frames"],
        ["SensorLab.Simulation"] = ["SensorLab.Files", "SensorLab.Frames"],
        ["SensorLab.Planning"] = ["SensorLab.Files", "SensorLab.Profiles", "SensorLab.Law"],
        ["SensorLab.Retest"] = ["SensorLab.Profiles", "SensorLab.Law"],
        ["SensorLab.Shelf"] = ["SensorLab.Files", "SensorLab.Profiles", "SensorLab.Law", "SensorLab.Retest"],
        ["SensorLab.Debrief"] = ["SensorLab.Frames", "SensorLab.Profiles", "SensorLab.Law"],
        ["SensorLab.Reports"] = ["SensorLab.Files", "SensorLab.Profiles", "SensorLab.Law", "SensorLab.Planning", "SensorLab.Retest", "SensorLab.Debrief"],
        ["SensorLab.Publishing"] = ["SensorLab.Files", "SensorLab.Profiles", "SensorLab.Reports"],
        ["SensorLab"] = ["SensorLab.Files", "SensorLab.Frames", "SensorLab.Profiles", "SensorLab.Law", "SensorLab.RawFiles", "SensorLab.Sets", "SensorLab.Pixels", "SensorLab.Measurement", "SensorLab.Imaging", "SensorLab.Planning", "SensorLab.Retest", "SensorLab.Debrief"],
        ["SensorLab.Bench"] = ["SensorLab", "SensorLab.Files", "SensorLab.Frames", "SensorLab.Profiles", "SensorLab.RawFiles", "SensorLab.Sets", "SensorLab.Pixels", "SensorLab.Measurement", "SensorLab.Imaging", "SensorLab.Planning", "SensorLab.Retest", "SensorLab.Debrief", "SensorLab.Reports", "SensorLab.Publishing"],
    };

    /// <summary>The only room of each package: its types and native libraries stay behind that room's own.</summary>
    private static readonly Dictionary<string, string[]> RoomsOfPackage = new()
    {
        ["DuckDB.NET"] = ["SensorLab.Shelf"],
        ["MathNet.Numerics"] = ["SensorLab.Law", "SensorLab.Measurement", "SensorLab.Planning", "SensorLab.Retest"],
        ["OpenCvSharp"] = ["SensorLab.Imaging"],
        ["ScottPlot"] = ["SensorLab.Reports"],
        ["SkiaSharp"] = ["SensorLab.Imaging", "SensorLab.Reports"],
        ["System.CommandLine"] = [CommandLine],
        ["Spectre.Console"] = [CommandLine],
    };

    /// <summary>Rooms that stand on the base library alone.</summary>
    private static readonly string[] WithoutPackages = ["SensorLab.Files", "SensorLab.Frames", "SensorLab.Profiles"];

    public static TheoryData<string> Projects => [.. Project.All.Select(p => p.Name)];

    [Fact]
    public void Projects_UnderSrc_AreAllInTheTable() =>
        Assert.Empty(Project.All.Select(p => p.Name).Except([.. MayKnow.Keys, CommandLine]));

    [Theory]
    [MemberData(nameof(Projects))]
    public void Project_References_FollowTheTable(string name) =>
        Assert.Empty(Find(name).ProjectReferences.Except(AllowedFor(name)));

    [Theory]
    [MemberData(nameof(Projects))]
    public void Project_BuiltAssembly_ReferencesOnlyWhatTheTableAllows(string name)
    {
        IReadOnlyList<string> references = Find(name).AssemblyReferences();

        Assert.Contains("System.Runtime", references);
        Assert.Empty(references.Where(r => r.Split('.')[0] == "SensorLab").Except(AllowedFor(name)));
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void Project_Packages_StayInTheirRooms(string name)
    {
        string[] packages = [.. Find(name).PackageReferences];

        Assert.DoesNotContain(packages, package => RoomsOfPackage.Any(r => IsOrBelongsTo(package, r.Key) && !r.Value.Contains(name)));
        Assert.False(WithoutPackages.Contains(name) && packages.Length > 0);
    }

    [Fact]
    public void MayKnow_Arrows_GoOneWay()
    {
        foreach (string name in MayKnow.Keys)
        {
            Assert.DoesNotContain(name, Reached(name));
        }
    }

    [Theory]
    [InlineData("SensorLab.Sets")]
    [InlineData("SensorLab.Measurement")]
    public void Project_BesideThePass_ReadsNoPixel(string name) => Assert.DoesNotContain(nameof(IMosaicReader), Find(name).TypeReferences());

    [Fact]
    public void Pixels_TypesUsed_KnowNoNoiseLaw()
    {
        IReadOnlyList<string> types = Find("SensorLab.Pixels").TypeReferences();

        Assert.Contains(nameof(IMosaicReader), types);
        Assert.Contains("Estimate", types);
        Assert.Empty(types.Intersect(["NoiseModel", "ResponseCurve", "PhotonTransfer", "JointModel"]));
    }

    private static Project Find(string name) => Project.All.Single(p => p.Name == name);

    private static IEnumerable<string> AllowedFor(string name) =>
        name == CommandLine ? MayKnow.Keys : MayKnow.GetValueOrDefault(name, []);

    private static IEnumerable<string> Reached(string name) => MayKnow[name].SelectMany(next => Reached(next).Append(next));

    private static bool IsOrBelongsTo(string package, string family) =>
        package == family || package.StartsWith(family, StringComparison.Ordinal);
}
