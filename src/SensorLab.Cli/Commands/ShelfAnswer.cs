using System.CommandLine;
using SensorLab.Files;

namespace SensorLab.Cli.Commands;

/// <summary>How an answer of the shelf is given: as a page where one is named, and as text or as one JSON document.</summary>
internal sealed class ShelfAnswer(Workbench workbench, Terminal terminal)
{
    /// <summary>The option <c>--out</c>.</summary>
    public Option<string?> Out { get; } = new("--out") { HelpName = "FILE.html", Description = "Write a page with the figures drawn, their intervals and what is marked; it works offline." };

    /// <summary>The option <c>--json</c>.</summary>
    public Option<bool> Json { get; } = new("--json") { Description = "Write one JSON document to standard output in place of the text." };

    /// <summary>Requires, before any work, that the page can be written.</summary>
    /// <param name="words">What the command line says.</param>
    public void Require(ParseResult words)
    {
        if (words.GetValue(Out) is { } page)
        {
            workbench.RequireFonts();
            OutputPlace.RequireFile(page, new InputFiles());
        }
    }

    /// <summary>Gives the answer.</summary>
    /// <param name="words">What the command line says.</param>
    /// <param name="page">Draws the page.</param>
    /// <param name="document">Writes the JSON document.</param>
    /// <param name="lines">The text.</param>
    /// <param name="cancellation">Heeded until the page is put in place.</param>
    public int Give(ParseResult words, Func<byte[]> page, Action<TextWriter> document, Func<IEnumerable<string>> lines, CancellationToken cancellation)
    {
        if (words.GetValue(Out) is { } path)
        {
            byte[] html = page();
            new WholeOutput().WithFile(path, file => file.Write(html)).PutInPlace(cancellation);
        }

        if (words.GetValue(Json))
        {
            document(terminal.Output);
            return ExitStatus.Done;
        }

        foreach (string line in lines())
        {
            terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }
}
