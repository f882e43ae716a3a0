using System.Text;
using SensorLab.Files;
using Spectre.Console;

namespace SensorLab.Cli;

/// <summary>Where a command writes: results to one stream, progress and findings to the other.</summary>
/// <param name="Output">Standard output.</param>
/// <param name="Error">Standard error.</param>
/// <param name="Live">A live display on standard error, for words of our own; null where that is no terminal.</param>
/// <remarks>What is written to either stream can hold any file's names, and steers no terminal (<see cref="VisibleTextWriter"/>).</remarks>
internal sealed record Terminal(TextWriter Output, TextWriter Error, IAnsiConsole? Live)
{
    /// <summary>Standard output.</summary>
    public TextWriter Output { get; } = new VisibleTextWriter(Output);

    /// <summary>Standard error.</summary>
    public TextWriter Error { get; } = new VisibleTextWriter(Error);

    /// <summary>The process's own streams, in UTF-8 whatever the locale says.</summary>
    public static Terminal OfProcess()
    {
        var utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
        Console.OutputEncoding = utf8;
        IAnsiConsole? live = Console.IsErrorRedirected
            ? null
            : AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Error) });
        return new Terminal(Console.Out, Console.Error, live);
    }
}
