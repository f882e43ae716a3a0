namespace SensorLab.Simulation.Cards;

/// <summary>What befalls a set between the camera and the computer: how the card is laid out, and what else is on it.</summary>
public sealed record CardHabits
{
    /// <summary>The seed of skips, reshots and other pictures.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Whether all files lie at the top; else in <c>DCIM/100LARKM</c> and on.</summary>
    public bool IsOneFolder { get; init; } = true;

    /// <summary>Frames of a DCIM folder, 1 or more.</summary>
    public int FramesPerFolder { get; init; } = 999;

    /// <summary>Number of the first file, 1 to 9999; after 9999 comes 1.</summary>
    public int FirstNumber { get; init; } = 1;

    /// <summary>Share of the frames that were forgotten, 0 to 1.</summary>
    public double SkippedShare { get; init; }

    /// <summary>Share of the frames that were shot twice, 0 to 1.</summary>
    public double ReshotShare { get; init; }

    /// <summary>Everyday pictures: a third of them before the set, a third in its midst, a third after it.</summary>
    public int HolidayPictures { get; init; }

    /// <summary>Plain frames at settings of no plan, before the first metered frame.</summary>
    public int TestShots { get; init; }

    /// <summary>Whether the camera also writes a JPEG file beside each raw file.</summary>
    public bool WritesJpegs { get; init; }

    /// <summary>The share of the set after which a day passes; null for none.</summary>
    public double? PauseAfterShare { get; init; }
}
