using System.CommandLine;
using SensorLab.Bench;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Planning.Plans;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab bench</c>: the lab as a page on the user's own machine, live while a set is shot.</summary>
/// <remarks>Runs until it is stopped. Looks at the folder every 0.8 s; frames cost what <c>assign</c> and <c>characterise</c> cost, each once.</remarks>
internal sealed class BenchCommand
{
    private const int HighestPort = 65535;

    private static readonly string[] Examples =
    [
        "sensorlab bench",
        "sensorlab bench skerry-lm2",
        "sensorlab bench skerry-lm2 --no-browser --port 8023",
    ];

    private readonly Argument<string?> _folder = new("FOLDER")
    {
        Description = "The folder that the frames come into: a card, or where a tethering program puts them. Left out, the page lets you choose, or goes on with the set that was open last.",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private readonly Option<int?> _port = WordOption.Optional<int>(
        "--port", "N", "The port on 127.0.0.1 [default: any that is free].", "a port from 1 to 65535", word => NumberWords.WholeNumbers(word, 1) is [> 0 and <= HighestPort and var port] ? port : null);

    private readonly Option<bool> _noBrowser = new("--no-browser") { Description = "Print the address, and open no browser." };

    private readonly Option<bool> _share = new("--share")
    {
        Description = "Let phones on the same network open the pocket sheet and the shot list, each by its own link, shown as a QR code; nothing else is reached that way, and it ends with the bench.",
    };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private BenchCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
        _folder.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: ['-', ..] word }])
            {
                result.AddError($"\"{word}\" is not an option of this command; a folder of that name is written ./{word}.");
            }
        });
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new BenchCommand(workbench, terminal);
        var command = new ExampleCommand("bench", "Opens the lab as a page on this machine: plans, watches the frames come in, says at once what is wrong and what to shoot next, and finishes the set. Ctrl-C ends it.", Examples)
        {
            words._folder, words._port, words._noBrowser, words._share,
        };
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        string? folder = words.GetValue(_folder);
        if (folder is not null && !Directory.Exists(folder))
        {
            throw new DirectoryNotFoundException(File.Exists(folder) ? $"{folder} is a file: name the folder that the frames come into." : $"There is no folder {folder}.");
        }

        await using BenchServer bench = await BenchServer.StartAsync(OptionsOf(words, folder), cancellation);
        Tell(bench, opensBrowser: !words.GetValue(_noBrowser));
        await Task.Delay(Timeout.Infinite, cancellation).ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default);
        return ExitStatus.Done;
    }

    private void Tell(BenchServer bench, bool opensBrowser)
    {
        _terminal.Output.WriteLine($"The bench: {bench.Address}");
        _terminal.Error.WriteLine("Only this machine reaches it, and only with that address. Ctrl-C ends it; the set is remembered.");
        foreach (string line in bench.SharedWith)
        {
            _terminal.Error.WriteLine(line);
        }

        if (opensBrowser && !BrowserWindow.Open(bench.Address))
        {
            _terminal.Error.WriteLine("No browser could be opened from here: open the address yourself.");
        }
    }

    private BenchOptions OptionsOf(ParseResult words, string? folder)
    {
        Settings settings = Settings.Read(_workbench.SettingsPath);
        string[] taken = [.. new[] { "meter-step", "delivery", "mains", "shutter" }.Where(name => settings[name] is not null).Select(name => $"{name} {settings[name]}")];
        SettingsNote.Write(_terminal, taken);
        return new BenchOptions
        {
            Folder = folder,
            Port = words.GetValue(_port) ?? 0,
            IsShared = words.GetValue(_share),
            DataFolder = _workbench.BenchFolder,
            Characterisation = new CharacterisationOptions { MeterStepEv = settings.MeterStepEv, Delivery = settings.Delivery },
            Shutter = settings.Shutter ?? ShutterRange.Common,
            MainsHz = settings.Mains,
            KeyPath = settings["key"] is { } key ? Path.GetFullPath(key) : null,
            Shelf = new BenchShelf(_workbench),
            ReadProfile = ProfileSource.Read,
        };
    }
}
