using System.CommandLine;
using System.Globalization;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Simulation.Bodies;
using SensorLab.Simulation.Flaws;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab rehearse</c>: a simulated frame set with its truth beside it.</summary>
/// <remarks>Draws every photosite of every frame once: what is asked for by --iso, --pixels and the plan is what it costs. Stops between frames.</remarks>
internal sealed class RehearseCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab rehearse practice",
        "sensorlab rehearse practice --iso 100,400 --pixels 1200x800 --seed 7",
        "sensorlab rehearse practice --plan lm2-plan/plan.json",
        "sensorlab rehearse flickering --flaw light-flicker=0.03 --flaw dark-missing",
    ];

    private readonly Argument<string> _frames = FolderArgument.Create(
        "The folder to write; FRAMES.truth.json beside it tells what is true of it. An earlier rehearsal is replaced, nothing else is.");

    private readonly Option<int[]> _iso = new("--iso")
    {
        HelpName = "N,N...",
        Description = "The ISO settings to shoot [default: 100,400,1600; with --plan all of the plan's].",
        CustomParser = result =>
        {
            string word = result.Tokens[0].Value;
            int[]? isos = NumberWords.WholeNumbers(word);
            if (isos is null || isos.Any(iso => iso < 1))
            {
                result.AddError($"--iso: \"{word}\" is not a list of ISO settings such as 100,400.");
            }

            return isos ?? [];
        },
    };

    private readonly Option<(int Width, int Height)?> _pixels = WordOption.Optional(
        "--pixels", "WxH", "The size of the frames in photosites [default: the body's].", "a size such as 1200x800", NumberWords.Size);

    private readonly Option<string?> _body = new("--body") { HelpName = "FILE", Description = "The body as JSON [default: Larkmoor LM-2]." };

    private readonly Option<string?> _plan = new("--plan") { HelpName = "PLAN.json", Description = "Shoot this plan.json, step by step, in place of the simulator's own set." };

    private readonly Option<ulong?> _seed = WordOption.Optional<ulong>(
        "--seed", "N", "Another seed, other noise [default: 1].", "a whole number from zero up", SeedOf);

    private readonly Option<string[]> _flaw = new("--flaw")
    {
        HelpName = "CODE[=SIZE]",
        Description = "Put a flaw in, named by its finding, its size in that finding's unit; may be repeated.",
        DefaultValueFactory = _ => [],
    };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private RehearseCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new RehearseCommand(workbench, terminal);
        var command = new ExampleCommand("rehearse", "Simulates a frame set whose figures are known, to practise on and to test with.", Examples)
        {
            words._frames, words._plan, words._iso, words._pixels, words._body, words._seed, words._flaw,
        };
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        string folder = words.GetRequiredValue(_frames);
        OutputPlace.RequireFolder(folder);
        RequireApart(folder, new InputFiles(words.GetValue(_body)));
        RehearsalOptions options = OptionsOf(words);
        int frames = 0;
        IReadOnlyList<IsoTruth> truth = await ProgressDisplay.ShowAsync(_terminal, "Shooting frames", report => Task.Run(
            () => _workbench.Rehearse(
                folder,
                options,
                new ImmediateProgress<RehearsalProgress>(p =>
                {
                    report(p.FramesWritten, p.FramesPlanned);
                    frames = p.FramesPlanned;
                }),
                cancellation),
            cancellation));
        Show(folder, frames, truth);
        return ExitStatus.Done;
    }

    private static void RequireApart(string folder, InputFiles inputs)
    {
        foreach (string file in FrameSetFiles.Of(folder).Append(Path.TrimEndingDirectorySeparator(folder) + ".truth.json"))
        {
            inputs.RequireApart(file);
        }
    }

    private void Show(string folder, int frames, IReadOnlyList<IsoTruth> truth)
    {
        string isos = string.Join(", ", truth.Select(t => t.Iso.ToString(CultureInfo.InvariantCulture)));
        _terminal.Output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Rehearsed {frames} frames at ISO {isos}: {folder}"));
        _terminal.Output.WriteLine($"What is true of them: {Path.TrimEndingDirectorySeparator(folder)}.truth.json");
    }

    private RehearsalOptions OptionsOf(ParseResult words)
    {
        var defaults = new RehearsalOptions();
        (int Width, int Height)? size = words.GetValue(_pixels);
        int[] isos = words.GetValue(_iso) ?? [];
        return defaults with
        {
            Script = words.GetValue(_plan) is { } plan ? RehearsedPlan.Of(PlanSource.Read(plan), isos) : [],
            Body = words.GetValue(_body) is { } file ? VirtualBodyFile.Read(file) : defaults.Body,
            IsoValues = isos,
            WidthPixels = size?.Width,
            HeightPixels = size?.Height,
            Flaws = [.. (words.GetValue(_flaw) ?? []).Select(FlawRequest.Parse)],
            Seed = words.GetValue(_seed) ?? defaults.Seed,
        };
    }

    private static ulong? SeedOf(string word) =>
        ulong.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out ulong seed) ? seed : null;
}
