using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab publish</c>: a sensor profile in, one bundle for the team out.</summary>
/// <remarks>Work in proportion to the profile, 64 MB at most, and its report. Stops between the report's parts.</remarks>
internal sealed class PublishCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab publish skerry-lm2.json --out skerry-lm2.zip",
        "sensorlab publish skerry-lm2.json --out skerry-lm2.zip --key skerry.pem",
        "sensorlab publish skerry-lm2.json --out lm2.zip --anonymous --accept-findings",
    ];

    private readonly Argument<string> _profile = ProfileArgument.Create("A sensor profile that characterise wrote; nothing else is needed.");

    private readonly Option<string> _out = new("--out")
    {
        HelpName = "BUNDLE.zip",
        Description = "The bundle: profile, report, pocket sheet, tables, noise profiles for DNG, schema, and a manifest of their hashes.",
        Required = true,
    };

    private readonly Option<string?> _key = new("--key")
    {
        HelpName = "PRIVATE.pem",
        Description = "Sign the manifest with this private key; sensorlab key makes one.",
    };

    private readonly Option<bool> _anonymous = new("--anonymous")
    {
        Description = "Leave out serial number, file names and hashes, and times.",
    };

    private readonly Option<bool> _acceptFindings = new("--accept-findings")
    {
        Description = "Publish a profile that has warnings or refused ISOs; they stay in the bundle.",
    };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private PublishCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new PublishCommand(workbench, terminal);
        var command = new ExampleCommand("publish", "Publishes a sensor profile for a team: one bundle with everything in it, signed on request.", Examples)
        {
            words._profile, words._out, words._key, words._anonymous, words._acceptFindings,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string path = words.GetRequiredValue(_out);
        string profilePath = ProfileSource.PathOf(words.GetRequiredValue(_profile), _workbench, _terminal, cancellation);
        string? keyPath = words.GetValue(_key);
        if (keyPath is null && !words.GetValue(_anonymous) && Settings.Read(_workbench.SettingsPath)["key"] is { } own)
        {
            // An anonymous bundle is signed only where that is asked for: the key tells whose it is.
            SettingsNote.Write(_terminal, [$"key {own}"]);
            keyPath = own;
        }

        var inputs = new InputFiles(profilePath, keyPath);
        OutputPlace.RequireFile(path, inputs);
        SensorProfile profile = ProfileSource.Read(profilePath, cancellation);
        using SigningKey? key = keyPath is null ? null : KeyIn(keyPath);
        var options = new PublishingOptions
        {
            IsAnonymous = words.GetValue(_anonymous),
            AcceptsFindings = words.GetValue(_acceptFindings),
            Key = key,
        };
        if (options.IsAnonymous && key is not null)
        {
            _terminal.Error.WriteLine("sensorlab: the bundle leaves out whose body it is, but its signature names the key. If that key also signs");
            _terminal.Error.WriteLine("sensorlab: bundles with a serial number, or is known as yours, it tells: sign with a key that does nothing else.");
        }

        PublishedBundle bundle = _workbench.Publish(profile, options, cancellation);
        new WholeOutput(inputs).WithFile(path, stream => stream.Write(bundle.Bytes.Span)).PutInPlace(cancellation);
        FindingText.Write(_terminal.Error, bundle.Profile.Findings, bundle.Profile);
        foreach (string line in PublicationText.Lines(bundle, path))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }

    private SigningKey KeyIn(string path)
    {
        SigningKey key = SigningKey.ReadFile(path);
        if (SigningKey.IsReadableByOthers(path))
        {
            _terminal.Error.WriteLine($"sensorlab: {path} is open to others than you, who could sign in your name.");
            _terminal.Error.WriteLine($"sensorlab: close it with: chmod 600 {path}");
        }

        return key;
    }
}
