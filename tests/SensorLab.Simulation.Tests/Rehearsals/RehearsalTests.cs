using System.Text.Json;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Rehearsals;
using SensorLab.Simulation.Tests.Writing;

namespace SensorLab.Simulation.Tests.Rehearsals;

public sealed class RehearsalTests : IDisposable
{
    private readonly string _root = Path.Combine(Path.GetTempPath(), $"sensorlab-rehearsal-{Guid.NewGuid():N}");

    public RehearsalTests() => Directory.CreateDirectory(_root);

    private static RehearsalOptions Small => new() { WidthPixels = 24, HeightPixels = 16, IsoValues = [100, 1600], Seed = 5 };

    private string Folder => Path.Combine(_root, "set");

    public void Dispose() => Directory.Delete(_root, recursive: true);

    [Fact]
    public void Write_ASet_HasItsRolesItsTableAndItsTruth()
    {
        IReadOnlyList<IsoTruth> truth = Write(Folder, Small);
        Assert.Equal(8, Directory.GetFiles(Path.Combine(Folder, "dark")).Length);
        Assert.Equal(8, Directory.GetFiles(Path.Combine(Folder, "metered")).Length);
        Assert.True(Directory.GetFiles(Path.Combine(Folder, "bracket")).Length > 100);
        Assert.True(File.Exists(Path.Combine(Folder, "dark", "P0001.dng")));
        string[] table = File.ReadAllLines(Path.Combine(Folder, "frames.csv"));
        Assert.Equal("file,lightStep,look", table[0]);
        Assert.Contains("metered/P0005.dng,,neutral", table);
        Assert.Contains("metered/P0007.dng,meter 2,neutral", table);
        using JsonDocument written = JsonDocument.Parse(File.ReadAllText(Folder + ".truth.json"));
        Assert.Equal(2, written.RootElement.GetArrayLength());
        Assert.Equal(truth[0].AboveEv, written.RootElement[0].GetProperty("aboveEv").GetDouble());
        Assert.Equal(truth[1].BelowEv["snr10"], written.RootElement[1].GetProperty("belowEv").GetProperty("snr10").GetDouble());
        Assert.Equal(2, Directory.GetFileSystemEntries(_root).Length);
    }

    [Fact]
    public void Of_TheBracket_RunsFromBelowSnr1ToTwoLevelsPastSaturation()
    {
        RehearsalPlan plan = RehearsalPlan.Of(Small);
        foreach (int iso in Small.IsoValues)
        {
            PlannedFrame[] bracket = [.. plan.Frames.Where(frame => frame.Role == FrameRole.Bracket && frame.Raw.Metadata.Iso == iso)];
            double[] levels = [.. bracket.Select(frame => frame.Exposure.LightElectron).Distinct()];
            Assert.Equal(bracket.Length, 2 * levels.Length);
            var law = new SensorLaw(plan.Camera.Body, plan.Camera.Body.At(iso));
            Assert.True(levels[0] < law.ElectronAtSnr(1));
            Assert.Equal(3, levels.Count(level => level * law.SmallestSensitivity >= law.SaturatingElectron));
            Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.Equal(Math.Pow(2, 1.0 / 3), pair.Second / pair.First, 1e-9));
        }
    }

    [Fact]
    public void Of_HalfStopsAndFourFrames_IsShotThatWay()
    {
        var body = new VirtualBody
        {
            Shutter = new ShutterSeries { StepsPerStop = 2 },
            Shooting = new ShootingHabits { FramesPerLevel = 4, DarkFrames = 6, MeterReadings = 1 },
        };
        RehearsalPlan plan = RehearsalPlan.Of(Small with { Body = body, IsoValues = [100] });
        Assert.Equal(6, plan.Frames.Count(frame => frame.Role == FrameRole.Dark));
        Assert.Equal(2, plan.Frames.Count(frame => frame.Role == FrameRole.Metered));
        IGrouping<double, PlannedFrame>[] levels = [.. plan.Frames.Where(frame => frame.Role == FrameRole.Bracket).GroupBy(frame => frame.Exposure.LightElectron)];
        Assert.All(levels, level => Assert.Equal(4, level.Count()));
        Assert.Equal(Math.Sqrt(2), levels[1].Key / levels[0].Key, 1e-9);
    }

    [Fact]
    public void Open_FrameOfAPlan_IsTheFileThatIsWritten()
    {
        RehearsalPlan plan = RehearsalPlan.Of(Small);
        Write(Folder, Small);
        PlannedFrame frame = plan.Frames[40];
        using IMosaicReader reader = plan.Open(frame);
        var codes = new ushort[24 * 16];
        reader.ReadRows(codes);
        var dng = new MinimalDng(File.ReadAllBytes(Path.Combine(Folder, frame.File)));
        Assert.Equal(dng.Unpack(dng.Blocks()[0], 24), codes);
        Assert.Equal(reader.Frame.Metadata.ExposureSeconds!.Value, dng.Exif[33434][0], 1e-8);
    }

    [Fact]
    public void Write_AnyJobs_SameBytes()
    {
        Write(Folder, Small with { Jobs = 1 });
        string other = Path.Combine(_root, "other");
        Write(other, Small with { Jobs = 7 });
        string[] files = [.. Directory.GetFiles(Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
        Assert.All(files, file => Assert.Equal(File.ReadAllBytes(file), File.ReadAllBytes(Path.Combine(other, Path.GetRelativePath(Folder, file)))));
        Assert.Equal(File.ReadAllText(Folder + ".truth.json"), File.ReadAllText(other + ".truth.json"));
    }

    [Fact]
    public void Write_OverARehearsal_ReplacesIt()
    {
        Write(Folder, Small);
        Write(Folder, Small with { IsoValues = [100] });
        Assert.Equal(4, Directory.GetFiles(Path.Combine(Folder, "dark")).Length);
    }

    [Fact]
    public void Write_OverOtherFiles_RefusesAndLeavesThem()
    {
        Directory.CreateDirectory(Folder);
        string mine = Path.Combine(Folder, "holiday.dng");
        File.WriteAllText(mine, "mine");
        RehearsalFolderException error = Assert.Throws<RehearsalFolderException>(() => Write(Folder, Small));
        Assert.Contains("no rehearsal", error.Message, StringComparison.Ordinal);
        Assert.Equal("mine", File.ReadAllText(mine));
        Assert.Single(Directory.GetFileSystemEntries(_root));
    }

    [Fact]
    public void Write_OverRealFramesWithLikeNames_RefusesWithoutATruthBeside()
    {
        Directory.CreateDirectory(Folder);
        File.WriteAllText(Path.Combine(Folder, "P0001.dng"), "mine");
        Assert.Throws<RehearsalFolderException>(() => Write(Folder, Small));
    }

    [Fact]
    public void Write_Cancelled_LeavesNothing()
    {
        using var cancellation = new CancellationTokenSource();
        var progress = new Counter(count =>
        {
            if (count == 10)
            {
                cancellation.Cancel();
            }
        });
        Assert.Throws<OperationCanceledException>(() => Rehearsal.Write(Folder, Small, progress, cancellation.Token));
        Assert.Empty(Directory.GetFileSystemEntries(_root));
    }

    [Fact]
    public void Write_ThatFailsOnTheWay_ThrowsTheReasonAndLeavesNothing()
    {
        var progress = new Counter(count => throw new IOException("No space is left."));
        IOException error = Assert.Throws<IOException>(() => Rehearsal.Write(Folder, Small, progress, TestContext.Current.CancellationToken));
        Assert.Equal("No space is left.", error.Message);
        Assert.Empty(Directory.GetFileSystemEntries(_root));
    }

    [Fact]
    public void Of_NoIsoNamed_TakesThreeOfTheBodys()
    {
        Assert.Equal([100, 400, 1600], RehearsalPlan.Of(Small with { IsoValues = [] }).IsoValues);
        var body = new VirtualBody { IsoSettings = [new VirtualBody().At(200)] };
        Assert.Equal([200], RehearsalPlan.Of(Small with { Body = body, IsoValues = [] }).IsoValues);
    }

    [Fact]
    public void Of_UnknownIso_NamesThoseThereAre()
    {
        RehearsalUsageException error = Assert.Throws<RehearsalUsageException>(() => RehearsalPlan.Of(Small with { IsoValues = [125] }));
        Assert.Contains("100, 200, 400", error.Message, StringComparison.Ordinal);
        Assert.Throws<RehearsalUsageException>(() => RehearsalPlan.Of(Small with { IsoValues = [100, 100] }));
        Assert.Throws<RehearsalUsageException>(() => RehearsalPlan.Of(Small with { WidthPixels = 0 }));
    }

    private static IReadOnlyList<IsoTruth> Write(string folder, RehearsalOptions options) =>
        Rehearsal.Write(folder, options, cancellation: TestContext.Current.CancellationToken);

    private sealed class Counter(Action<int> told) : IProgress<RehearsalProgress>
    {
        public void Report(RehearsalProgress value) => told(value.FramesWritten);
    }
}
