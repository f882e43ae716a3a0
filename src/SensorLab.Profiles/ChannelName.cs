using System.Collections.Immutable;

namespace SensorLab.Profiles;

/// <summary>The names of the channels of a colour filter array, and what is reckoned by them.</summary>
public static class ChannelName
{
    /// <summary>Red.</summary>
    public const string Red = "R";

    /// <summary>Green beside red in its row; of a pattern with one kind of green, all of it.</summary>
    public const string FirstGreen = "G1";

    /// <summary>Green beside blue in its row.</summary>
    public const string SecondGreen = "G2";

    /// <summary>Blue.</summary>
    public const string Blue = "B";

    /// <summary>The one channel of a monochrome sensor.</summary>
    public const string Monochrome = "Y";

    /// <summary>The order in which documents list them.</summary>
    public static ImmutableArray<string> InOrder { get; } = [Red, FirstGreen, SecondGreen, Blue, Monochrome];

    /// <summary>Whether a channel is one of the two greens.</summary>
    /// <param name="name">The channel's name.</param>
    public static bool IsGreen(string name) => name is FirstGreen or SecondGreen;

    /// <summary>Whether a channel belongs to the pool that middle grey, SNR and the shadow end are of: the greens, or the one of a monochrome sensor.</summary>
    /// <param name="name">The channel's name.</param>
    public static bool IsPooled(string name) => IsGreen(name) || name == Monochrome;

    /// <summary>Whether a channel stands for the pool where one has to.</summary>
    /// <param name="name">The channel's name.</param>
    public static bool LeadsPool(string name) => name is FirstGreen or Monochrome;
}
