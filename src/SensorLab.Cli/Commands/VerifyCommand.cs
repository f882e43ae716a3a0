using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Publishing.Keys;
using SensorLab.Publishing.Verification;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab verify</c>: whether a bundle is whole, signed, and by whom.</summary>
/// <remarks>Work in proportion to the bundle, 256 MB unpacked and 4,096 files at most.</remarks>
internal sealed class VerifyCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab verify skerry-lm2.zip",
        "sensorlab verify skerry-lm2.zip --trust skerry.pub.pem",
        "sensorlab verify skerry-lm2.zip --trust skerry.pub.pem --json",
    ];

    private readonly Argument<string> _bundle = FileArgument.Create("BUNDLE.zip", "A bundle that publish wrote; nothing of it is unpacked.");

    private readonly Option<string?> _trust = new("--trust")
    {
        HelpName = "PUBLIC.pem",
        Description = "Require a signature of this key, which you had from its owner by another way.",
    };

    private readonly Option<bool> _json = new("--json") { Description = "Write the result to standard output as JSON in place of the text." };

    private readonly Terminal _terminal;

    private VerifyCommand(Terminal terminal) => _terminal = terminal;

    public static Command Create(Terminal terminal)
    {
        var words = new VerifyCommand(terminal);
        var command = new ExampleCommand("verify", "Tells whether a bundle is whole, signed, and by whom. Exit status 0 valid, 7 not valid.", Examples)
        {
            words._bundle, words._trust, words._json,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string path = words.GetRequiredValue(_bundle);
        PublicKey? trusted = words.GetValue(_trust) is { } trust ? PublicKey.ReadFile(trust) : null;
        BundleVerification result = BundleVerifier.VerifyFile(path, trusted, cancellation);
        if (words.GetValue(_json))
        {
            VerificationDocument.Write(_terminal.Output, result);
        }
        else
        {
            foreach (string line in VerificationText.Lines(result, path))
            {
                _terminal.Output.WriteLine(line);
            }
        }

        return result.IsValid ? ExitStatus.Done : ExitStatus.NotValid;
    }
}
