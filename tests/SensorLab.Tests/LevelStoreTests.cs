using SensorLab.Live;
using SensorLab.Profiles;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;

namespace SensorLab.Tests;

/// <summary>Levels that an earlier run measured: they count to the last bit, and only where nothing that they hang on has changed.</summary>
public sealed class LevelStoreTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public LevelStoreTests() => Rehearsal.Write(Frames, new RehearsalOptions { IsoValues = [400], WidthPixels = 120, HeightPixels = 80 }, null, TestContext.Current.CancellationToken);

    private string Frames => _folder.File("frames");

    private string Levels => _folder.File("levels");

    [Fact]
    public async Task Characterise_OfASetMeasuredInAnEarlierRun_GivesTheSameProfileAndMeasuresNothing()
    {
        byte[] first = await ProfileAsync();
        Dictionary<string, DateTime> kept = Written();
        byte[] again = await ProfileAsync();

        Assert.NotEmpty(kept);
        Assert.Equal(await ProfileAsync(levels: null), first);
        Assert.Equal(first, again);
        Assert.Equal(kept, Written());
    }

    [Fact]
    public async Task Characterise_OfAFrameWrittenAnew_MeasuresItsLevelAndNoOther()
    {
        await ProfileAsync();
        int levels = Written().Count;
        string bracket = Directory.EnumerateFiles(Frames, "*", SearchOption.AllDirectories).Where(f => f.Contains("bracket", StringComparison.Ordinal)).Order(StringComparer.Ordinal).First();
        File.SetLastWriteTimeUtc(bracket, DateTime.UnixEpoch);
        await ProfileAsync();

        Assert.Equal(levels + 1, Written().Count);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.9)]
    public async Task Characterise_OfDamagedLevels_MeasuresThemAnew(double place)
    {
        byte[] sound = await ProfileAsync();
        foreach (string file in Written().Keys)
        {
            byte[] bytes = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
            bytes[(int)(place * bytes.Length)] ^= 0x40;
            await File.WriteAllBytesAsync(file, place > 0.5 ? bytes[..^9] : bytes, TestContext.Current.CancellationToken);
            File.SetLastWriteTimeUtc(file, DateTime.UnixEpoch);
        }

        byte[] again = await ProfileAsync();

        Assert.Equal(sound, again);
        Assert.DoesNotContain(DateTime.UnixEpoch, Written().Values);
    }

    [Fact]
    public async Task Characterise_WhereNothingCanBeKept_GivesTheProfileAllTheSame()
    {
        await File.WriteAllTextAsync(Levels, "a file where the folder would be", TestContext.Current.CancellationToken);

        Assert.Equal(await ProfileAsync(levels: null), await ProfileAsync());
    }

    public void Dispose() => _folder.Dispose();

    private Task<byte[]> ProfileAsync() => ProfileAsync(Levels);

    private async Task<byte[]> ProfileAsync(string? levels)
    {
        var set = new LiveSet(Frames, null, [], new CharacterisationOptions { Jobs = 2 }, levels);
        using var bytes = new MemoryStream();
        SensorProfileWriter.Write(await set.CharacteriseAsync(null, TestContext.Current.CancellationToken), bytes);
        return bytes.ToArray();
    }

    private Dictionary<string, DateTime> Written() => Directory.EnumerateFiles(Levels).ToDictionary(f => f, File.GetLastWriteTimeUtc);
}
