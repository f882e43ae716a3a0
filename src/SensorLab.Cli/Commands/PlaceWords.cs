using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary>The options that say where in the frames is measured, and how many are read at once.</summary>
internal sealed class PlaceWords
{
    // More photosites than any side has; sums of two of them still fit an int.
    private const int LargestPlace = 1_000_000;

    private readonly Option<RegionWord?> _region = WordOption.Optional(
        "--region", "X,Y,W,H", "Measure here and nowhere else, in photosites from the active area's top left.", "four whole numbers X,Y,W,H with W and H above zero", RegionOf);

    private readonly Option<(int X, int Y)?> _spot = WordOption.Optional(
        "--spot", "X,Y", "Where the spot meter looks [default: the frame's centre].", "two whole numbers X,Y from zero up", SpotOf);

    private readonly Option<int?> _jobs = WordOption.Optional(
        "--jobs", "N", "Frames read at once [default: the machine's cores].", "a whole number above zero", CountOf);

    public IEnumerable<Option> Options => [_region, _spot, _jobs];

    /// <summary>The options with what the words say.</summary>
    public CharacterisationOptions Into(CharacterisationOptions options, ParseResult words) => options with
    {
        Region = words.GetValue(_region) is { } region ? new MeasuredRegion(region.X, region.Y, region.Width, region.Height) : null,
        Spot = words.GetValue(_spot),
        Jobs = words.GetValue(_jobs) ?? options.Jobs,
    };

    private static int? CountOf(string word) => NumberWords.WholeNumbers(word, 1) is [> 0] count ? count[0] : null;

    private static RegionWord? RegionOf(string word) =>
        NumberWords.WholeNumbers(word, 4) is [>= 0, >= 0, > 0, > 0] n && n.All(p => p <= LargestPlace)
            ? new RegionWord(n[0], n[1], n[2], n[3]) : null;

    private static (int X, int Y)? SpotOf(string word) => NumberWords.WholeNumbers(word, 2) is [>= 0, >= 0] n ? (n[0], n[1]) : null;

    private readonly record struct RegionWord(int X, int Y, int Width, int Height);
}
