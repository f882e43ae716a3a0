using System.CommandLine;
using System.Security.Cryptography;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab pocket</c>: sensor profiles in, what goes on location out.</summary>
/// <remarks>Work in proportion to the profiles, 64 MB each at most; the axes of its drawings are of fixed length. Stops between pages.</remarks>
internal sealed class PocketCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab pocket skerry-lm2.json --out skerry-lm2-pocket.html",
        "sensorlab pocket skerry-lm2.json --out skerry-lm2-pocket.pdf",
        "sensorlab pocket mine.json colleague.json --out team.html",
    ];

    private readonly Argument<string[]> _profiles = ProfileArgument.Several(
        "Sensor profiles, one a body: first that of the body in your hand, then colleagues', with what each must dial in to clip alike.");

    private readonly PageOrPaper _out = new("A page for the phone, which needs no network; or a PDF: A5 pages, then cards of wallet size to cut out.");

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private PocketCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new PocketCommand(workbench, terminal);
        var command = new ExampleCommand("pocket", "Writes the pocket sheet: spot readings in, exposure to set out; on a phone or on paper.", Examples);
        command.Add(words._profiles);
        command.Add(words._out.Option);
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string file = words.GetRequiredValue(_out.Option);
        string[] paths = [.. words.GetRequiredValue(_profiles).Select(word => ProfileSource.PathOf(word, _workbench, _terminal, cancellation))];
        RequireOnce(paths, Path.GetFullPath, "is named twice");
        var inputs = new InputFiles(paths);
        OutputPlace.RequireFile(file, inputs);
        SensorProfile[] profiles = [.. paths.Select(path => Read(path, cancellation))];
        RequireOnce(paths, HashOf, "holds the same profile as another");
        byte[] sheet = PageOrPaper.IsPage(file) ? _workbench.PocketPage(profiles) : _workbench.PocketPaper(profiles, cancellation);
        new WholeOutput(inputs).WithFile(file, stream => stream.Write(sheet)).PutInPlace(cancellation);
        foreach (string line in PocketText.Lines(profiles, file))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }

    // With several files a fault must say whose it is.
    private static SensorProfile Read(string path, CancellationToken cancellation)
    {
        try
        {
            return ProfileSource.Read(path, cancellation);
        }
        catch (ProfileFormatException e)
        {
            throw new ProfileFormatException($"{path}: {e.Message}", e.Remedy, e);
        }
    }

    // One body twice would be its own colleague.
    private static void RequireOnce(IEnumerable<string> paths, Func<string, string> identity, string fault)
    {
        var seen = new HashSet<string>();
        foreach (string path in paths.Where(path => !seen.Add(identity(path))))
        {
            throw new UsageException($"{path} {fault}: name each profile once.");
        }
    }

    private static string HashOf(string path)
    {
        using FileStream file = PlainFile.OpenRead(path);
        return Convert.ToHexString(SHA256.HashData(file));
    }
}
