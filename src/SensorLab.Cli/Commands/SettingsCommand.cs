using System.CommandLine;
using SensorLab.Cli.Presentation;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab settings</c>: what stays the same from run to run.</summary>
internal sealed class SettingsCommand
{
    private const string None = "none";

    private static readonly string[] Examples =
    [
        "sensorlab settings",
        "sensorlab settings meter-step 1/3",
        "sensorlab settings delivery 2400x1600",
        "sensorlab settings delivery none",
    ];

    private readonly Argument<string?> _name = new("NAME") { Description = "The setting; all are listed where it is left out.", Arity = ArgumentArity.ZeroOrOne };

    private readonly Argument<string?> _value = new("VALUE") { Description = $"What to set it to; \"{None}\" takes it out.", Arity = ArgumentArity.ZeroOrOne };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private SettingsCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
        _name.CompletionSources.Add(_ => Settings.Names.Select(n => new System.CommandLine.Completions.CompletionItem(n.Name)));
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new SettingsCommand(workbench, terminal);
        var command = new ExampleCommand("settings", "Keeps what stays the same: meter step, mains, shutter range, delivery size, key, shelf. An option goes before its setting.", Examples)
        {
            words._name, words._value,
        };
        command.SetAction((parsed, _) => Task.FromResult(words.Run(parsed)));
        return command;
    }

    private int Run(ParseResult words)
    {
        Settings settings = Settings.Read(_workbench.SettingsPath);
        if (words.GetValue(_name) is not { } name)
        {
            WriteAll(settings);
            return ExitStatus.Done;
        }

        SettingName known = Settings.Names.FirstOrDefault(n => n.Name == name)
            ?? throw new UsageException($"there is no setting \"{name}\".{NearestWord.Question(name, Settings.Names.Select(n => n.Name))} There are {string.Join(", ", Settings.Names.Select(n => n.Name))}.");
        if (words.GetValue(_value) is { } value)
        {
            Set(settings, known, value);
        }

        _terminal.Output.WriteLine(settings[name] ?? "not set");
        return ExitStatus.Done;
    }

    private static void Set(Settings settings, SettingName known, string value)
    {
        if (value != None && !known.IsSound(value))
        {
            throw new UsageException($"{known.Name}: \"{value}\" is not {known.Expected}.");
        }

        // A file is meant from wherever a command is run later.
        bool isPlace = known.Name is "key" or "shelf";
        settings.Write(known.Name, value == None ? null : isPlace ? Path.GetFullPath(value) : value);
    }

    private void WriteAll(Settings settings)
    {
        foreach (SettingName known in Settings.Names)
        {
            _terminal.Output.WriteLine($"{known.Name,-11} {settings[known.Name] ?? "not set",-18} {known.Option}");
            foreach (string line in WrappedText.Lines(known.Description, "            ", "            "))
            {
                _terminal.Output.WriteLine(line);
            }
        }

        _terminal.Output.WriteLine();
        _terminal.Output.WriteLine(settings.Path.Length == 0 ? "The system names no folder to keep them in." : $"Kept in {settings.Path}");
    }
}
