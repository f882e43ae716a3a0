using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Files;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab characterise</c>: a frame set in, a sensor profile out.</summary>
/// <remarks>Reads every photosite of every frame once, 100,000 frames at most; then one fit an ISO, each of counted steps, 64 ISOs of 1,000 levels at most. A finished profile takes the fits alone. Stops between rows of a frame and between the parts of a fit.</remarks>
internal sealed class CharacteriseCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab characterise skerry-lm2 --out skerry-lm2.json",
        "sensorlab characterise skerry-lm2 --out skerry-lm2.json --report lm2-report",
        "sensorlab characterise skerry-lm2 --out lm2.json --snr 7 --delivery 2400x1600",
        "sensorlab characterise practice --out p.json --truth practice.truth.json",
        "sensorlab characterise skerry-lm2.json --out lm2-snr7.json --snr 7",
        "sensorlab characterise no-meter --out lm2.json --grey saturation --json",
    ];

    private readonly Argument<string> _frames = FolderArgument.Create("The frame set: a folder with dark, metered and bracket in it. Or a finished PROFILE.json, to fit again without the frames.");

    private readonly Option<string> _out = new("--out")
    {
        HelpName = "PROFILE.json",
        Description = "Where the sensor profile is written; replaced only when the new one is whole.",
        Required = true,
    };

    private readonly Option<string?> _report = new("--report") { HelpName = "FOLDER", Description = "Write the report into this folder: a page, a PDF, charts and tables." };

    private readonly Option<string?> _truth = new("--truth")
    {
        HelpName = "FILE",
        Description = "A rehearsal's .truth.json: show what was measured beside what is true.",
    };

    private readonly Option<string?> _plan = PlanOption.Create();

    private readonly Option<bool> _json = new("--json") { Description = "Write the sensor profile to standard output in place of the table." };

    private readonly CharacterisationWords _words = new();

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private CharacteriseCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new CharacteriseCommand(workbench, terminal);
        var command = new ExampleCommand("characterise", "Measures a frame set and writes a sensor profile; or fits a finished one again.", Examples);
        command.Add(words._frames);
        command.Add(words._out);
        command.Add(words._report);
        foreach (Option option in words._words.Options)
        {
            command.Add(option);
        }

        command.Add(words._plan);
        command.Add(words._truth);
        command.Add(words._json);
        command.SetAction(words.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult words, CancellationToken cancellation)
    {
        string frames = ProfileSource.PathOf(words.GetRequiredValue(_frames), _workbench, _terminal, cancellation);
        string path = words.GetRequiredValue(_out);
        string? report = words.GetValue(_report);
        InputFiles inputs = InputsOf(words, frames);
        RequirePlaces(frames, path, report, inputs);
        IReadOnlyList<TruthFile.IsoFigures>? truth = words.GetValue(_truth) is { } file ? TruthFile.Read(file) : null;
        bool isJson = words.GetValue(_json);
        ShotPlan? plan = PlanOf(words, frames);
        PlanComparison? comparison = plan is null ? null : await _workbench.ComparePlan(frames, plan, _words.OptionsOf(words).Jobs, cancellation);
        SensorProfile profile;
        try
        {
            profile = File.Exists(frames)
                ? Refit.Of(ProfileSource.Read(frames, cancellation), _words.OptionsOf(words), cancellation)
                : await MeasureAsync(frames, OptionsWithSettings(words), cancellation);
        }
        catch (FrameSetRefusedException refused) when (isJson || comparison is not null)
        {
            ShowRefused(refused, comparison, isJson);
            throw;
        }

        if (plan is not null)
        {
            profile = profile with { Conditions = profile.Conditions with { Protocol = string.Create(CultureInfo.InvariantCulture, $"{plan.Protocol} {plan.ProtocolVersion}") } };
        }

        Place(profile, path, report, inputs, cancellation);
        if (isJson)
        {
            FindingText.Write(_terminal.Error, profile.Findings, profile);
            WriteDocument(profile, comparison);
        }
        else
        {
            FindingText.WriteBrief(_terminal.Error, profile);
            WriteTables(profile, truth);
            FindingText.Write(_terminal.Error, profile.Findings, profile);
            WriteLines([$"Sensor profile: {path}", .. report is null ? [] : new[] { ReportSummary.PlaceLine(report) }, .. comparison is null ? [] : PlanComparisonText.Lines(comparison)]);
        }

        return ExitStatus.Done;
    }

    // A profile that is fitted again keeps what it was measured with.
    private CharacterisationOptions OptionsWithSettings(ParseResult words)
    {
        (CharacterisationOptions options, IReadOnlyList<string> taken) = _words.OptionsOf(words, Settings.Read(_workbench.SettingsPath));
        SettingsNote.Write(_terminal, taken);
        return options;
    }

    // A profile and its report stand for the same frames: both come into place, or neither does.
    private void Place(SensorProfile profile, string path, string? report, InputFiles inputs, CancellationToken cancellation)
    {
        WholeOutput output = new WholeOutput(inputs).WithFile(path, stream => SensorProfileWriter.Write(profile, stream));
        if (report is not null)
        {
            output.WithFolder(report, _workbench.ReportFiles(profile, cancellation).Select(file => (file.Name, file.Bytes)));
        }

        output.PutInPlace(cancellation);
    }

    private InputFiles InputsOf(ParseResult words, string frames) =>
        new([frames, words.GetValue(_truth), words.GetValue(_plan), .. _workbench.FilesOf(frames).Where(file => !OwnMark.IsProfile(file))]);

    private void RequirePlaces(string frames, string path, string? report, InputFiles inputs)
    {
        if (!Directory.Exists(frames) && !File.Exists(frames))
        {
            throw new DirectoryNotFoundException($"There is no {frames}: name the folder that holds dark, metered and bracket, or a finished profile.");
        }

        if (File.Exists(frames) && InputKind.Of(frames) is InputKind.Frame)
        {
            throw new IOException($"{frames} is one raw frame; a folder of frames is wanted here, which holds dark, metered and bracket, or a finished profile.");
        }

        OutputPlace.RequireFile(path, inputs);
        if (report is not null)
        {
            _workbench.RequireFonts();
            OutputPlace.RequireFolder(report);
            if (Path.TrimEndingDirectorySeparator(Path.GetFullPath(report)) == Path.GetFullPath(path))
            {
                throw new UsageException("--out and --report name the same place: the profile is a file, the report a folder.");
            }
        }
    }

    private Task<SensorProfile> MeasureAsync(string frames, CharacterisationOptions options, CancellationToken cancellation) =>
        ProgressDisplay.ShowAsync(_terminal, "Measuring frames", report =>
            _workbench.Characterise(
                frames,
                options,
                new ImmediateProgress<CharacterisationProgress>(p => report(p.FramesDone, p.FramesTotal)),
                cancellation));

    // A finished profile holds no frames to compare: it keeps no light steps of single frames.
    private ShotPlan? PlanOf(ParseResult words, string frames) => words.GetValue(_plan) is not { } file ? null
        : File.Exists(frames) ? throw new UsageException("--plan compares a folder of frames with its plan, not a finished profile.")
        : PlanSource.Read(file);

    private void ShowRefused(FrameSetRefusedException refused, PlanComparison? comparison, bool isJson)
    {
        if (isJson)
        {
            FindingsDocument.Write(_terminal.Output, refused.Findings, comparison);
        }
        else if (comparison is not null)
        {
            WriteLines(PlanComparisonText.Lines(comparison));
        }
    }

    private void WriteDocument(SensorProfile profile, PlanComparison? comparison)
    {
        using var document = new MemoryStream();
        SensorProfileWriter.Write(profile, document);
        string text = Encoding.UTF8.GetString(document.GetBuffer(), 0, (int)document.Length);
        _terminal.Output.Write(comparison is null ? text : FindingsDocument.Text(JsonNode.Parse(text)!.AsObject(), comparison) + "\n");
    }

    private void WriteTables(SensorProfile profile, IReadOnlyList<TruthFile.IsoFigures>? truth)
    {
        WriteLines([.. ReportSummary.Lines(profile), string.Empty]);
        if (truth is not null)
        {
            WriteLines([.. TruthTable.Lines(profile, truth), string.Empty]);
        }
    }

    private void WriteLines(IEnumerable<string> lines)
    {
        foreach (string line in lines)
        {
            _terminal.Output.WriteLine(line);
        }
    }
}
