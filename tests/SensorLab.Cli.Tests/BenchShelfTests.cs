using SensorLab.Bench;
using SensorLab.Profiles;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>The user's shelf as the bench sees it.</summary>
public sealed class BenchShelfTests : IDisposable
{
    private static readonly DateTimeOffset May = new(2026, 5, 3, 12, 0, 0, TimeSpan.Zero);

    private readonly TemporaryFolder _folder = new();

    private Workbench Workbench => CommandRun.Sample with { ShelfFolder = _folder.File("shelf"), SettingsPath = _folder.File("settings.json") };

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Look_BeforeAndAfterAdding_NamesTheOtherProfilesOfTheBodyNewestFirst()
    {
        var shelf = new BenchShelf(Workbench);
        SensorProfile older = Profile("20417", "1.0", May.AddYears(-1));
        SensorProfile earlier = Profile("20417", "1.1", May);
        SensorProfile another = Profile("20418", "1.1", May.AddDays(1));
        SensorProfile own = Profile("20417", "1.2", May.AddMonths(1));

        ShelfView none = shelf.Look(own, Token);
        bool isMadeByLooking = Directory.Exists(_folder.File("shelf"));
        foreach (SensorProfile profile in (SensorProfile[])[earlier, older, another])
        {
            await shelf.AddAsync(profile, Token);
        }

        ShelfView before = shelf.Look(own, Token);
        await shelf.AddAsync(own, Token);
        ShelfView after = shelf.Look(own, Token);

        Assert.False(isMadeByLooking);
        Assert.False(none.Holds);
        Assert.Empty(none.Earlier);
        Assert.False(before.Holds);
        Assert.Equal(["firmware 1.1, 3 May 2026", "firmware 1.0, 3 May 2025"], before.Earlier.Select(e => e.Label));
        Assert.Equal("1.1", SensorProfileReader.ReadFile(before.Earlier[0].Path).Body.Firmware);
        Assert.True(after.Holds);
        Assert.Equal(before.Earlier, after.Earlier);
    }

    [Fact]
    public async Task Look_AtABodyWithoutSerialNumber_NamesNoOther()
    {
        var shelf = new BenchShelf(Workbench);
        await shelf.AddAsync(Profile(null, "1.1", May), Token);

        Assert.Empty(shelf.Look(Profile(null, "1.2", May), Token).Earlier);
    }

    [Fact]
    public void Look_WhereTheSystemNamesNoFolder_SaysWhy() =>
        Assert.Contains("--shelf", Assert.Throws<IOException>(() => new BenchShelf(Workbench with { ShelfFolder = string.Empty }).Look(Profile("20417", "1.1", May), Token)).Message, StringComparison.Ordinal);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private static SensorProfile Profile(string? serial, string firmware, DateTimeOffset time)
    {
        SensorProfile profile = SampleProfiles.ThreeIsos();
        return profile with { CreatedUtc = time, Body = profile.Body with { SerialNumber = serial, Firmware = firmware } };
    }
}
