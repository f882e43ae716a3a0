using System.CommandLine;

namespace SensorLab.Cli.Arguments;

/// <summary>The option <c>--iso</c> of the commands that ask about one ISO.</summary>
internal static class IsoOption
{
    /// <summary>The option.</summary>
    /// <param name="description">What it is for.</param>
    public static Option<int?> Create(string description) => WordOption.Optional("--iso", "N", description, "a whole number above zero", IsoOf);

    private static int? IsoOf(string word) => NumberWords.WholeNumbers(word, 1) is [> 0] iso ? iso[0] : null;
}
