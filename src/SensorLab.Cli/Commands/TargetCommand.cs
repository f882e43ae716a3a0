using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Files;
using SensorLab.Reports.Targets;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab target</c>: the plain grey sheet to print.</summary>
/// <remarks>Draws one sheet, whatever is asked.</remarks>
internal sealed class TargetCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab target --out grey-sheet.pdf",
        "sensorlab target --out grey-sheet.svg --paper Letter",
    ];

    private readonly Option<string> _out = new("--out") { HelpName = "FILE.svg|FILE.pdf", Description = "Where the sheet is written; its ending names the kind.", Required = true };

    private readonly Option<PaperSize?> _paper = WordOption.Optional("--paper", "A4|A3|Letter", "The paper; A4 where it is left out.", "A4, A3 or Letter", PaperOf);

    private readonly Terminal _terminal;

    private TargetCommand(Terminal terminal) => _terminal = terminal;

    public static Command Create(Terminal terminal)
    {
        var words = new TargetCommand(terminal);
        var command = new ExampleCommand("target", "Writes a plain grey sheet to print, with how to set it up, cautions, and a bar to check the print's scale.", Examples)
        {
            words._out, words._paper,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private static PaperSize? PaperOf(string word) =>
        Enum.GetValues<PaperSize>().Where(p => p.ToString().Equals(word, StringComparison.OrdinalIgnoreCase)).Select(p => (PaperSize?)p).FirstOrDefault();

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string path = words.GetRequiredValue(_out);
        PaperSize paper = words.GetValue(_paper) ?? PaperSize.A4;
        Func<PaperSize, byte[]> draw = Path.GetExtension(path).ToUpperInvariant() switch
        {
            ".SVG" => GreySheet.ToSvg,
            ".PDF" => GreySheet.ToPdf,
            _ => throw new UsageException($"--out: \"{path}\" ends neither in .svg nor in .pdf."),
        };
        OutputPlace.RequireFile(path, new InputFiles());
        byte[] sheet = draw(paper);
        WholeFile.Write(path, file => file.Write(sheet), cancellation);
        _terminal.Output.WriteLine($"Grey sheet for {paper}: {path}");
        _terminal.Output.WriteLine("Print at 100 % on matt paper: the bar is 100 mm long when the print has its true size.");
        return ExitStatus.Done;
    }
}
