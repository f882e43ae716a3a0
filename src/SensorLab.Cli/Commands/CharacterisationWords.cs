using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Cli.Commands;

/// <summary>The options that say how a frame set is to be measured.</summary>
internal sealed class CharacterisationWords
{
    private readonly Option<(int Width, int Height)?> _delivery = DeliveryOption.Create(
        "The size in pixels that pictures are delivered at: adds the shadow end there.");

    private readonly Option<double[]> _snr = WordOption.Several(
        "--snr", "NUMBER", "One more criterion for the shadow end beside 40, 20, 10, 4 and 1; may be repeated.", "a number from 0.001 to 1000000", Criterion);

    private readonly Option<string?> _grey = new("--grey")
    {
        HelpName = "metered|saturation",
        Description = "What defines middle grey: the metered frames, or ISO 12232's saturation-based speed [default: metered].",
    };

    private readonly Option<double?> _meterStep = WordOption.Optional(
        "--meter-step", "EV", "The step that the camera's meter shows, in EV [default: 1/3].", "a step above zero, such as 1/3, of 10 at most", MeterStep);

    private readonly PlaceWords _place = new();

    public CharacterisationWords() => _grey.AcceptOnlyFromAmong(GreyMethodName.Metered, GreyMethodName.Saturation);

    public IEnumerable<Option> Options => [_delivery, _snr, _grey, _meterStep, .. _place.Options];

    /// <summary>What the words ask for, with the user's settings where they are silent.</summary>
    /// <param name="words">The words.</param>
    /// <param name="settings">The settings.</param>
    /// <returns>The options, and the settings that were taken.</returns>
    public (CharacterisationOptions Options, IReadOnlyList<string> Taken) OptionsOf(ParseResult words, Settings settings)
    {
        CharacterisationOptions asked = OptionsOf(words);
        bool takesStep = asked.MeterStepEv is null && asked.Grey != GreyMethod.Saturation && settings.MeterStepEv is not null;
        bool takesDelivery = asked.Delivery is null && settings.Delivery is not null;
        CharacterisationOptions options = asked with
        {
            MeterStepEv = takesStep ? settings.MeterStepEv : asked.MeterStepEv,
            Delivery = takesDelivery ? settings.Delivery : asked.Delivery,
        };
        return (options, [.. takesStep ? [$"meter-step {settings["meter-step"]}"] : Array.Empty<string>(), .. takesDelivery ? [$"delivery {settings["delivery"]}"] : Array.Empty<string>()]);
    }

    public CharacterisationOptions OptionsOf(ParseResult words)
    {
        return _place.Into(new CharacterisationOptions(), words) with
        {
            Grey = words.GetValue(_grey) switch
            {
                null => null,
                GreyMethodName.Saturation => GreyMethod.Saturation,
                _ => GreyMethod.Metered,
            },
            MeterStepEv = words.GetValue(_meterStep),
            SnrCriteria = [.. (words.GetValue(_snr) ?? []).Distinct()],
            Delivery = words.GetValue(_delivery) is { } size ? new Delivery(size.Width, size.Height) : null,
        };
    }

    // What a profile can hold: its schema states the same.
    private static double? Criterion(string word) => NumberWords.Number(word) is { } number and >= 0.001 and <= 1_000_000 ? number : null;

    /// <summary>A meter's step in EV; null where the word is none.</summary>
    public static double? MeterStep(string word) => NumberWords.Number(word) is { } number and > 0 and <= 10 ? number : null;
}
