using System.CommandLine;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Publishing.Keys;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab key</c>: a signing key pair.</summary>
/// <remarks>Makes one key pair, whatever is asked.</remarks>
internal sealed class KeyCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab key --out skerry.pem",
    ];

    private readonly Option<string> _out = new("--out")
    {
        HelpName = "PRIVATE.pem",
        Description = "The private key, for its owner alone; the public key goes beside it as PRIVATE.pub.pem. Nothing is overwritten.",
        Required = true,
    };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private KeyCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new KeyCommand(workbench, terminal);
        var command = new ExampleCommand("key", "Makes a key pair that signs bundles (ES256, PEM).", Examples) { words._out };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string path = words.GetRequiredValue(_out);
        OutputPlace.RequireFile(path, new InputFiles());
        PublicKey key = _workbench.MakeKeys(path, cancellation);
        foreach (string line in KeyText.Lines(key, path))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
