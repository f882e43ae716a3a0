using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab swatch</c>: a sensor profile in, patches with its noise out, to choose the criterion by eye.</summary>
internal sealed class SwatchCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab swatch skerry-lm2.json --iso 400 --out skerry-lm2-400.html",
        "sensorlab swatch skerry-lm2.json --iso 1600 --delivery 2400x1600 --out skerry-lm2-1600.pdf",
    ];

    private readonly Argument<string> _profile = ProfileArgument.Create("The sensor profile of the body whose noise is drawn.");

    private readonly Option<int?> _iso = IsoOption.Create("The ISO; it must have been measured.");

    private readonly PageOrPaper _out = new("A page, one pixel of the picture a pixel of the screen; or a PDF, 300 pixels an inch.");

    private readonly Option<(int Width, int Height)?> _delivery = DeliveryOption.Create("The size in pixels at which pictures are looked at [default: the profile's; else the sensor's own pixels].");

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private SwatchCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
        _iso.Required = true;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new SwatchCommand(workbench, terminal);
        var command = new ExampleCommand("swatch", "Shows noise to the eye: patches to choose the criterion for --snr from.", Examples)
        {
            words._profile, words._iso, words._out.Option, words._delivery,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private Delivery? DeliveryOf(ParseResult words, SensorProfile profile)
    {
        if (words.GetValue(_delivery) is { } size)
        {
            return new Delivery(size.Width, size.Height);
        }

        Settings settings = Settings.Read(_workbench.SettingsPath);
        if (profile.Delivery is not null || settings.Delivery is null)
        {
            return null;
        }

        SettingsNote.Write(_terminal, [$"delivery {settings["delivery"]}"]);
        return settings.Delivery;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string file = words.GetRequiredValue(_out.Option);
        string path = ProfileSource.PathOf(words.GetRequiredValue(_profile), _workbench, _terminal, cancellation);
        int iso = words.GetRequiredValue(_iso)!.Value;
        var inputs = new InputFiles(path);
        OutputPlace.RequireFile(file, inputs);
        SensorProfile profile = ProfileSource.Read(path, cancellation);
        Delivery? delivery = DeliveryOf(words, profile);
        byte[] sheet = PageOrPaper.IsPage(file) ? _workbench.SwatchPage(profile, iso, delivery) : _workbench.SwatchPaper(profile, iso, delivery, cancellation);
        new WholeOutput(inputs).WithFile(file, stream => stream.Write(sheet)).PutInPlace(cancellation);
        foreach (string line in SwatchText.Lines(profile, iso, file))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
