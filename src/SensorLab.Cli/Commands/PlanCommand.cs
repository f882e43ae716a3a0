using System.CommandLine;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Planning.Plans;
using SensorLab.Planning.Protocols;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab plan</c>: what to shoot, in shooting order, before a frame is shot.</summary>
/// <remarks>Plans what --iso and the protocol ask for; the prediction takes counted steps an ISO.</remarks>
internal sealed class PlanCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab plan --protocol evening --out lm2-plan",
        "sensorlab plan --protocol evening --metered 1/60@100 --mains 50 --out lm2-plan",
        "sensorlab plan --protocol first-acquaintance --iso 100,400,1600 --shutter 1/4000..30 --out lm2-plan",
        "sensorlab plan --protocol after-an-update --from skerry-lm2.json --out lm2-plan",
    ];

    private readonly Option<string> _protocol = new("--protocol")
    {
        HelpName = "NAME",
        Description = $"What to shoot: {string.Join(", ", ProtocolLibrary.Names)}.",
        Required = true,
    };

    private readonly Option<string?> _iso = new("--iso") { HelpName = "N,N…", Description = "The ISOs; without it the protocol's own." };

    private readonly Option<ShutterRange?> _shutter = WordOption.Optional(
        "--shutter", "FASTEST..SLOWEST", "The body's exposure times, such as 1/8000..30, which is also taken where this is left out.", "a range of exposure times such as 1/8000..30, from 1/32000 to 60 s", PlanArguments.Range);

    private readonly Option<MeteredExposure?> _metered = WordOption.Optional(
        "--metered", "SECONDS@ISO", "Where the spot meter reads zero on the field as the light stands, such as 1/60@100: the plan then says how far to move the lamp.", "an exposure time and an ISO such as 1/60@100", PlanArguments.Metered);

    private readonly Option<int?> _mains = WordOption.Optional(
        "--mains", "50|60", "The frequency of the mains that the lamps run on; without it light that does not pulse.", "50 or 60", PlanArguments.Mains);

    private readonly Option<string?> _from = new("--from") { HelpName = "PROFILE.json", Description = "An earlier profile of the body: exposures, card space and prediction are taken from it." };

    private readonly Option<string> _out = new("--out") { HelpName = "FOLDER", Description = "Where plan.html, plan.pdf, plan.csv and plan.json are written.", Required = true };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private PlanCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
        _protocol.CompletionSources.Add(_ => ProtocolLibrary.Names.Select(name => new System.CommandLine.Completions.CompletionItem(name)));
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new PlanCommand(workbench, terminal);
        var command = new ExampleCommand("plan", "Plans what to shoot, in shooting order, and predicts what it will give: for the phone, on paper, as data.", Examples)
        {
            words._protocol, words._iso, words._shutter, words._metered, words._mains, words._from, words._out,
        };
        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        string name = words.GetRequiredValue(_protocol);
        Protocol protocol = ProtocolLibrary.Find(name)
            ?? throw new UsageException($"--protocol: there is no protocol \"{name}\".{NearestWord.Question(name, ProtocolLibrary.Names)} There are {string.Join(", ", ProtocolLibrary.Names)}.");
        var settings = Settings.Read(_workbench.SettingsPath);
        int[] isos = words.GetValue(_iso) is { } list
            ? NumberWords.WholeNumbers(list) ?? throw new UsageException($"--iso: \"{list}\" is not a list of ISOs such as 100,400.")
            : [];
        string folder = words.GetRequiredValue(_out);
        OutputPlace.RequireFolder(folder);
        string? file = words.GetValue(_from) is { } word ? ProfileSource.PathOf(word, _workbench, _terminal, cancellation) : null;
        SensorProfile? from = file is null ? null : ProfileSource.Read(file, cancellation);
        ShutterRange? shutter = words.GetValue(_shutter);
        int? mains = words.GetValue(_mains);
        SettingsNote.Write(_terminal, [.. Taken(settings, "shutter", shutter is null), .. Taken(settings, "mains", mains is null)]);
        ShotPlan plan = PlanOf(new PlanRequest
        {
            Protocol = protocol,
            Isos = isos,
            Shutter = shutter ?? settings.Shutter ?? ShutterRange.Common,
            Metered = words.GetValue(_metered),
            Mains = (mains ?? settings.Mains) is { } hertz ? new MainsLight(hertz) : null,
            From = from,
        });
        new WholeOutput(new InputFiles(file))
            .WithFolder(folder, _workbench.PlanFiles(plan).Select(made => (made.Name, made.Bytes)))
            .PutInPlace(cancellation);
        foreach (string line in PlanText.Lines(plan, folder))
        {
            _terminal.Output.WriteLine(line);
        }

        return ExitStatus.Done;
    }

    private static IEnumerable<string> Taken(Settings settings, string name, bool isFree) => isFree && settings[name] is { } word ? [$"{name} {word}"] : [];

    private static ShotPlan PlanOf(PlanRequest request)
    {
        try
        {
            return ShotPlanner.Plan(request);
        }
        catch (PlanUsageException e)
        {
            throw new UsageException(e.Message);
        }
    }
}
