using System.Globalization;
using SensorLab.Simulation.Draws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Simulation.Cards;

/// <summary>Pours a rehearsed set onto a card, as it comes out of a camera: unsorted, with all that happens on an evening.</summary>
public sealed class CardPour
{
    private const ulong CardStream = 0x4341_5244;
    private const int HighestNumber = 9999;
    private const int FirstFolder = 100;
    private const int ThirdsPerStop = 3;
    private static readonly TimeSpan BetweenFrames = TimeSpan.FromSeconds(2);
    private static readonly TimeSpan Break = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan Night = TimeSpan.FromHours(21);

    private readonly CardHabits _habits;
    private readonly List<CardFrame> _frames = [];
    private RandomStream _chance;
    private DateTimeOffset _time;
    private int _drawn;

    private CardPour(CardHabits habits, int firstDrawn)
    {
        _habits = habits;
        _chance = new RandomStream(RandomStream.Mix(habits.Seed, CardStream), 0);
        _drawn = firstDrawn;
    }

    /// <summary>Pours.</summary>
    /// <param name="set">The set, in the order in which it is shot.</param>
    /// <param name="habits">What befalls it.</param>
    /// <param name="others">Frames of another body that are on the card too, behind the set's; null for none.</param>
    /// <returns>The frames in the order in which they were taken; names as the card has them.</returns>
    public static IReadOnlyList<CardFrame> Pour(RehearsalPlan set, CardHabits habits, RehearsalPlan? others = null)
    {
        var card = new CardPour(habits, set.Frames.Max(frame => frame.Number) + 1);
        card.Shoot(set);
        foreach (PlannedFrame frame in others?.Frames ?? [])
        {
            card.Add(frame, others!, belongs: false);
        }

        return card._frames;
    }

    private void Shoot(RehearsalPlan set)
    {
        _time = set.Frames[0].Raw.Metadata.CaptureTime ?? DateTimeOffset.UnixEpoch;
        int third = _habits.HolidayPictures / 3;
        Holiday(set, third);
        int test = FirstLit(set);
        int half = set.Frames.Count / 2;
        int pause = _habits.PauseAfterShare is { } share ? (int)(share * set.Frames.Count) : -1;
        for (int i = 0; i < set.Frames.Count; i++)
        {
            if (i == test)
            {
                TestShots(set, set.Frames[i]);
            }

            if (i == half)
            {
                Holiday(set, _habits.HolidayPictures - (2 * third));
            }

            if (i == pause)
            {
                _time += Night;
            }

            if (_chance.NextUnit() >= _habits.SkippedShare)
            {
                Add(set.Frames[i], set, belongs: true);
            }

            if (_chance.NextUnit() < _habits.ReshotShare)
            {
                Add(Again(set.Frames[i]), set, belongs: true);
            }
        }

        Holiday(set, third);
    }

    private static int FirstLit(RehearsalPlan set) => set.Frames.Index().First(frame => frame.Item.Exposure.LightElectron > 0).Index;

    private void Holiday(RehearsalPlan set, int pictures)
    {
        if (pictures > 0)
        {
            _time += Break;
        }

        for (int i = 0; i < pictures; i++)
        {
            Add(HolidayPicture.Of(set, _drawn++, ref _chance), set, belongs: false);
        }

        if (pictures > 0)
        {
            _time += Break;
        }
    }

    // The field as it stands before the light is trimmed, a third or two brighter than the first frame, at a time between the dial's clicks of the plan.
    private void TestShots(RehearsalPlan set, PlannedFrame first)
    {
        for (int i = 0; i < _habits.TestShots; i++)
        {
            double seconds = first.Exposure.ExposureSeconds * Math.Pow(2, (i + 0.5) / ThirdsPerStop);
            PlannedFrame shot = Again(first).WithMetadata(said => said with { ExposureSeconds = seconds });
            Add(shot with { Exposure = shot.Exposure with { ExposureSeconds = seconds } }, set, belongs: false);
            _frames[^1] = _frames[^1] with { IsTestShot = true };
        }
    }

    private PlannedFrame Again(PlannedFrame frame)
    {
        int number = _drawn++;
        return frame with { Number = number, Exposure = frame.Exposure with { FrameNumber = (ulong)number } };
    }

    private void Add(PlannedFrame frame, RehearsalPlan camera, bool belongs)
    {
        DateTimeOffset time = _time;
        _time += BetweenFrames + TimeSpan.FromSeconds(Math.Ceiling(frame.Exposure.ExposureSeconds));
        _frames.Add(new CardFrame(NextFile(), frame.WithMetadata(said => said with { CaptureTime = time }), camera, belongs));
    }

    private string NextFile()
    {
        int number = ((_habits.FirstNumber - 1 + _frames.Count) % HighestNumber) + 1;
        int folder = FirstFolder + (_frames.Count / _habits.FramesPerFolder);
        string name = string.Create(CultureInfo.InvariantCulture, $"LARK{number:0000}.DNG");
        return _habits.IsOneFolder ? name : string.Create(CultureInfo.InvariantCulture, $"DCIM/{folder}LARKM/{name}");
    }
}
