using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Measurement.Sets;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary>The options that say how a frame set is to be measured.</summary>
internal sealed class CharacterisationWords
{
    // More photosites than any side has; sums of two of them still fit an int.
    private const int LargestPlace = 1_000_000;

    private const string Saturation = "saturation";

    private readonly Option<(int Width, int Height)?> _delivery = WordOption.Optional(
        "--delivery", "WxH", "The size in pixels that pictures are delivered at: adds the shadow end there.", "a size such as 2400x1600", NumberWords.Size);

    private readonly Option<double[]> _snr = WordOption.Several(
        "--snr", "NUMBER", "One more criterion for the shadow end beside 40, 20, 10, 4 and 1; may be repeated.", "a number above zero", PositiveNumber);

    private readonly Option<string?> _grey = new("--grey")
    {
        HelpName = "metered|saturation",
        Description = "What defines middle grey: the metered frames, or ISO 12232's saturation-based speed [default: metered].",
    };

    private readonly Option<double?> _meterStep = WordOption.Optional(
        "--meter-step", "EV", "The step that the camera's meter shows, in EV [default: 1/3].", "a step above zero, such as 1/3", PositiveNumber);

    private readonly Option<MeasuredRegionWord?> _region = WordOption.Optional(
        "--region", "X,Y,W,H", "Measure here and nowhere else, in photosites from the active area's top left.", "four whole numbers X,Y,W,H with W and H above zero", RegionOf);

    private readonly Option<(int X, int Y)?> _spot = WordOption.Optional(
        "--spot", "X,Y", "Where the spot meter looks [default: the frame's centre].", "two whole numbers X,Y from zero up", SpotOf);

    private readonly Option<int?> _jobs = WordOption.Optional(
        "--jobs", "N", "Frames read at once [default: the machine's cores].", "a whole number above zero", CountOf);

    public CharacterisationWords() => _grey.AcceptOnlyFromAmong("metered", Saturation);

    public IEnumerable<Option> Options => [_delivery, _snr, _grey, _meterStep, _region, _spot, _jobs];

    public CharacterisationOptions OptionsOf(ParseResult words)
    {
        var defaults = new CharacterisationOptions();
        return defaults with
        {
            Grey = words.GetValue(_grey) switch
            {
                null => null,
                Saturation => GreyMethod.Saturation,
                _ => GreyMethod.Metered,
            },
            MeterStepEv = words.GetValue(_meterStep),
            SnrCriteria = [.. (words.GetValue(_snr) ?? []).Distinct()],
            Delivery = words.GetValue(_delivery) is { } size ? new Delivery(size.Width, size.Height) : null,
            Region = words.GetValue(_region) is { } region ? new MeasuredRegion(region.X, region.Y, region.Width, region.Height) : null,
            Spot = words.GetValue(_spot),
            Jobs = words.GetValue(_jobs) ?? defaults.Jobs,
        };
    }

    private static double? PositiveNumber(string word) => NumberWords.Number(word) is { } number && number > 0 ? number : null;

    private static int? CountOf(string word) => NumberWords.WholeNumbers(word, 1) is [> 0] count ? count[0] : null;

    private static MeasuredRegionWord? RegionOf(string word) =>
        NumberWords.WholeNumbers(word, 4) is [>= 0, >= 0, > 0, > 0] n && n.All(p => p <= LargestPlace)
            ? new MeasuredRegionWord(n[0], n[1], n[2], n[3]) : null;

    private static (int X, int Y)? SpotOf(string word) => NumberWords.WholeNumbers(word, 2) is [>= 0, >= 0] n ? (n[0], n[1]) : null;

    private readonly record struct MeasuredRegionWord(int X, int Y, int Width, int Height);
}
