using System.Globalization;
using SensorLab.Assignment;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Cards;
using SensorLab.Simulation.Rehearsals;
using SensorLab.TestData;
using SensorLab.Tests.Plans;

namespace SensorLab.Tests.Assignment;

/// <summary>What happens to cards: no frame is wrong without a question, whatever the clock, the counter and the user's hands did.</summary>
public sealed class AwkwardCardTests
{
    private const string Protocol = "evening";

    /// <summary>Frames told at least: of eighty frames three in doubt, and one more.</summary>
    private const double MostAreTold = 0.95;

    /// <summary>Of eighty frames the six pictures may be asked about.</summary>
    private const double AllButSix = 74.0 / 80;

    private static readonly CardHabits Folders = new() { IsOneFolder = false, FramesPerFolder = 40, FirstNumber = 9970, HolidayPictures = 6, Seed = 11 };

    public static TheoryData<string> Clocks => ["set back to the factory's day", "set back an hour", "set forward an hour", "none", "none after half", "half a minute"];

    [Theory]
    [MemberData(nameof(Clocks))]
    public async Task Assign_ClockThatIsOff_TellsByTheCount(string clock)
    {
        using PouredCard card = Pour(frames => [.. frames.Select((f, i) => Timed(f, Clock(clock, f.Shot.Raw.Metadata.CaptureTime!.Value, (double)i / frames.Count)))]);

        await HoldAsync(card, MostAreTold);
    }

    [Fact]
    public async Task Assign_NamesInLowerCaseAndTwiceOverTwoFolders_TellsAll()
    {
        using PouredCard card = Pour(frames => [.. frames.Select((f, i) => f with { File = string.Create(CultureInfo.InvariantCulture, $"dcim/{100 + (i / 30)}lark/lark{(i % 30) + 1:0000}.dng") })]);

        await HoldAsync(card, MostAreTold);
    }

    [Fact]
    public async Task Assign_FoldersThatBreakAt999AndNumbersThatWrap_TellsAllByTheCountAlone()
    {
        using PouredCard card = PouredCard.Of(
            "first-acquaintance",
            PlannedBody.All[0],
            new CardHabits { IsOneFolder = false, FirstNumber = 9950, HolidayPictures = 960, Seed = 5 },
            mostIsos: 1,
            befall: frames => [.. frames.Select(f => Timed(f, null))]);

        Assert.Equal(["100LARKM", "101LARKM"], card.Frames.Select(f => f.File.Split('/')[1]).Distinct());
        await HoldAsync(card, MostAreTold);
    }

    [Fact]
    public async Task Assign_EverythingElseThatCardsHold_IsCountedAndLeftAlone()
    {
        using PouredCard card = Pour(frames => frames);
        string folder = Path.Combine(card.Folder, "DCIM", "100LARKM");
        foreach (string name in new[] { "MOV00001.MP4", "LARK9970.XMP", "LARK8000.JPG", "LARK9970.WAV", "._LARK9971.DNG", ".DS_Store", "INDEX.BDM" })
        {
            await File.WriteAllTextAsync(Path.Combine(folder, name), "something else", TestContext.Current.CancellationToken);
        }

        CardAssignment assigned = await card.AssignAsync(hasPlan: true);

        Assert.Equal(7, assigned.FilesIgnored);
        Assert.DoesNotContain(assigned.Findings, f => f.Code is FindingCode.FrameUnreadable or FindingCode.FrameUnsuitable);
        Assert.Empty(card.Judge(assigned.Assignment, hasPlan: true).Wrong);
    }

    [Fact]
    public async Task Assign_CopyOfAFrame_IsSetAsideAndNotTheFrame()
    {
        using PouredCard card = Pour(frames => frames);
        CardFrame frame = card.Frames.First(f => f.Shot.Role == FrameRole.Bracket);
        string copy = frame.File.Replace(".DNG", " copy.DNG", StringComparison.Ordinal);
        File.Copy(Path.Combine(card.Folder, frame.File), Path.Combine(card.Folder, copy));

        CardAssignment assigned = await card.AssignAsync(hasPlan: true);

        AssignedFrame aside = Assert.Single(assigned.Assignment.Frames, f => f.File == copy);
        Assert.Equal((FrameUse.None, true), (aside.Use, aside.IsSure));
        Assert.Empty(card.Judge(assigned.Assignment, hasPlan: true).Wrong);
    }

    [Fact]
    public async Task Assign_LastFileHalfCopied_NamesItAndTellsTheOthers()
    {
        using PouredCard card = Pour(frames => frames);
        CardFrame last = card.Frames[^1];
        string path = Path.Combine(card.Folder, last.File);
        byte[] whole = await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(path, whole[..(whole.Length / 2)], TestContext.Current.CancellationToken);

        CardAssignment assigned = await card.AssignAsync(hasPlan: true);

        Finding finding = Assert.Single(assigned.Findings, f => f.Code == FindingCode.FrameUnreadable);
        Assert.Equal([last.File], finding.Frames);
        Assert.DoesNotContain(assigned.Assignment.Frames, f => f.File == last.File);
    }

    [Fact]
    public async Task Assign_EverydayPicturesInRolesFolders_AreAskedAbout()
    {
        string[] roles = ["dark", "metered", "bracket", "bracket"];
        using PouredCard card = Pour(frames => [.. frames.Select((f, i) => f with { File = f.BelongsToSet ? f.Shot.File : $"{roles[i % 4]}/{Path.GetFileName(f.File)}" })]);

        await HoldAsync(card, AllButSix);
    }

    [Fact]
    public async Task Assign_LitFramesInTheFolderOfDarkOnes_AreAskedAbout()
    {
        int moved = 0;
        using PouredCard card = Pour(frames => [.. frames.Select(f => f with { File = f.Shot.Role == FrameRole.Bracket && moved++ % 9 == 0 ? $"dark/{Path.GetFileName(f.File)}" : f.BelongsToSet ? f.Shot.File : f.File })]);

        await HoldAsync(card, 0.8);
    }

    [Fact]
    public async Task Assign_SortedFoldersWithAFilterNobodyNamed_NamesItsFrames()
    {
        using PouredCard card = Pour(frames => [.. frames.Select(f => f with { File = f.BelongsToSet ? f.Shot.File : f.File })]);

        await HoldAsync(card, MostAreTold);
    }

    /// <summary>The dimmest frames do not tell in which of two lights they were shot; a blank light step beside a named one does.</summary>
    [Fact]
    public async Task Assign_SortedFoldersWithLightStepsInTheTable_TakesTheUsersWordAndTakesItAgain()
    {
        using var folder = new TemporaryFolder();
        string set = folder.File("set");
        Rehearsal.Write(set, new RehearsalOptions { IsoValues = [400], WidthPixels = 360, HeightPixels = 240, Seed = 7, Jobs = 2 }, cancellation: TestContext.Current.CancellationToken);
        string table = Path.Combine(set, "frames.csv");
        Assert.Contains("meter 2", await File.ReadAllTextAsync(table, TestContext.Current.CancellationToken), StringComparison.Ordinal);

        for (int time = 0; time < 2; time++)
        {
            CardAssignment assigned = await AssignAsync(set);

            Assert.Empty(assigned.Assignment.Questions);
            Assert.All(assigned.Assignment.Frames, f => Assert.Equal(f.File.Split('/')[0], f.Use.RoleName));
            await File.WriteAllBytesAsync(table, assigned.Table.ToArray(), TestContext.Current.CancellationToken);
        }

        // Nobody's word is left: what a frame's own light does not tell is asked, and asked again.
        File.Delete(table);
        for (int time = 0; time < 2; time++)
        {
            CardAssignment assigned = await AssignAsync(set);

            Assert.NotEmpty(assigned.Assignment.Questions);
            await File.WriteAllBytesAsync(table, assigned.Table.ToArray(), TestContext.Current.CancellationToken);
        }

        static Task<CardAssignment> AssignAsync(string set) => CardAssignment.RunAsync(set, new CardReading(), 2, cancellation: TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Assign_GreySky_IsNoFrameOfTheSetOrAskedAbout()
    {
        int seen = 0;
        using PouredCard card = Pour(frames => [.. frames.Select(f => f.Shot.Role is null ? Sky(f, frames, seen++) : f)]);

        await HoldAsync(card, AllButSix);
    }

    [Fact]
    public async Task Assign_SeveralLooksWithoutAPlan_AreAskedAboutUntilTheyAreNamed()
    {
        using PouredCard card = PouredCard.Of("looks", PlannedBody.All[0], new CardHabits { Seed = 3 }, mostIsos: 1);

        CardAssignment unnamed = await card.AssignAsync(hasPlan: false);
        CardAssignment planned = await card.AssignAsync(hasPlan: true);
        await File.WriteAllBytesAsync(Path.Combine(card.Folder, "frames.csv"), planned.Table.ToArray(), TestContext.Current.CancellationToken);
        CardAssignment named = await card.AssignAsync(hasPlan: false);

        AssignmentQuestion question = Assert.Single(unnamed.Assignment.Questions, IsOfLooks);
        Assert.Contains(card.Frames.First(f => f.Shot.Columns.GetValueOrDefault("look") is { } look && look != card.Frames[0].Shot.Columns["look"]).File, question.Files);
        Assert.DoesNotContain(planned.Assignment.Questions, IsOfLooks);
        Assert.DoesNotContain(named.Assignment.Questions, IsOfLooks);
    }

    [Fact]
    public async Task Assign_FramesShotAgainInOneLook_AreNotAskedAbout()
    {
        using PouredCard card = PouredCard.Of(Protocol, PlannedBody.All[0], new CardHabits { Seed = 4 }, befall: Twice);

        CardAssignment assigned = await card.AssignAsync(hasPlan: false);

        Assert.DoesNotContain(assigned.Assignment.Questions, IsOfLooks);
    }

    private static bool IsOfLooks(AssignmentQuestion question) => question.Question.Contains("several looks", StringComparison.Ordinal);

    // The whole set, and once more.
    private static IReadOnlyList<CardFrame> Twice(IReadOnlyList<CardFrame> frames) =>
    [
        .. frames,
        .. frames.Select((f, i) => Timed(f, f.Shot.Raw.Metadata.CaptureTime!.Value.AddHours(3)) with { File = string.Create(CultureInfo.InvariantCulture, $"LARK{5000 + i}.DNG") })
            .Select(f => f with { Shot = f.Shot with { Exposure = f.Shot.Exposure with { FrameNumber = f.Shot.Exposure.FrameNumber + 10_000 } } }),
    ];

    private static PouredCard Pour(Func<IReadOnlyList<CardFrame>, IReadOnlyList<CardFrame>> befall) =>
        PouredCard.Of(Protocol, PlannedBody.All[0], Folders, befall: befall);

    private static async Task HoldAsync(PouredCard card, double told)
    {
        foreach (bool hasPlan in new[] { true, false })
        {
            CardAssignment assigned = await card.AssignAsync(hasPlan);
            PouredCard.Score score = card.Judge(assigned.Assignment, hasPlan);

            Assert.True(score.Wrong.Count == 0, string.Create(CultureInfo.InvariantCulture, $"plan {hasPlan}: {score.Wrong.Count} wrong\n{string.Join('\n', score.Wrong.Take(20))}"));
            Assert.True(score.Right >= told * score.Frames, string.Create(CultureInfo.InvariantCulture, $"plan {hasPlan}: {score.Right} of {score.Frames}\n{string.Join('\n', assigned.Assignment.Questions.Select(q => $"{q.Question} ({q.Files.Count})"))}"));
        }
    }

    private static CardFrame Timed(CardFrame frame, DateTimeOffset? time) => frame with
    {
        Shot = frame.Shot with { Raw = frame.Shot.Raw with { Metadata = frame.Shot.Raw.Metadata with { CaptureTime = time } } },
    };

    private static DateTimeOffset? Clock(string kind, DateTimeOffset time, double share) => kind switch
    {
        "set back to the factory's day" => share < 0.5 ? time : time.AddYears(-6),
        "set back an hour" => share < 0.6 ? time : time.AddHours(-1),
        "set forward an hour" => share < 0.4 ? time : time.AddHours(1),
        "none" => null,
        "none after half" => share < 0.5 ? time : null,
        _ => share < 0.5 ? time : time.AddSeconds(-30),
    };

    // A plain picture of the lamp's own colour at a setting of the plan, in a light an EV or more from any of the set: an overcast sky, a wall.
    private static CardFrame Sky(CardFrame picture, IReadOnlyList<CardFrame> frames, int number)
    {
        CardFrame[] own = [.. frames.Where(f => f.Shot.Role == FrameRole.Bracket)];
        PlannedFrame model = own[(number * 37) % own.Length].Shot;
        VirtualIso setting = model.Exposure.Setting;
        return picture with
        {
            Shot = picture.Shot with
            {
                Exposure = model.Exposure with
                {
                    LightElectron = setting.MiddleGreyElectron * Math.Pow(2, (1 + Math.Sin(number)) / 2),
                    FrameNumber = picture.Shot.Exposure.FrameNumber,
                },
                Raw = model.Raw with { Metadata = model.Raw.Metadata with { CaptureTime = picture.Shot.Raw.Metadata.CaptureTime } },
            },
        };
    }
}
