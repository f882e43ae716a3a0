using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The option <c>--delivery</c>.</summary>
internal static class DeliveryOption
{
    /// <summary>The option.</summary>
    /// <param name="description">What it is for.</param>
    public static Option<(int Width, int Height)?> Create(string description) =>
        WordOption.Optional("--delivery", "WxH", description, "a size such as 2400x1600, of a million pixels a side at most", SizeOf);

    /// <summary>A size; null where the word is none.</summary>
    /// <param name="word">The word.</param>
    public static (int Width, int Height)? SizeOf(string word) => NumberWords.Size(word) is { Width: <= 1_000_000, Height: <= 1_000_000 } size ? size : null;
}
