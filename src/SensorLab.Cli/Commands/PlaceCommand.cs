using System.CommandLine;
using System.Text;
using SensorLab.Cli.Arguments;
using SensorLab.Cli.Presentation;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Cli.Commands;

/// <summary><c>sensorlab place</c>: a spot reading in, what the sensor makes of it out.</summary>
/// <remarks>Work in proportion to the profile, 64 MB at most.</remarks>
internal sealed class PlaceCommand
{
    private static readonly string[] Examples =
    [
        "sensorlab place skerry-lm2.json --iso 400 --tone 2.7",
        "sensorlab place skerry-lm2.json --iso 400 --tone 2 --scene -5..3",
        "sensorlab place skerry-lm2.json --iso 800 --tone -4 --light tungsten --json",
    ];

    private readonly Argument<string> _profile = ProfileArgument.Create("The sensor profile of the body in your hand.");

    private readonly Option<int?> _iso = IsoOption.Create("The ISO that you will use; it must have been measured.");

    private readonly Option<double?> _tone = WordOption.Optional("--tone", "EV", "The tone's spot reading: stops from middle grey, negative below it.", "a number of stops, such as 2.7 or -4", NumberWords.Number);

    private readonly Option<SceneRange?> _scene = WordOption.Optional(
        "--scene", "LOW..HIGH", "The darkest and the brightest reading that must hold texture.", "two readings from dark to bright, such as -5..3", SceneOf);

    private readonly Option<string?> _light = new("--light") { HelpName = "NAME", Description = "A light that the profile knows [default: the one that the set was shot in]." };

    private readonly Option<double?> _guard = WordOption.Optional(
        "--guard", "EV", "Room to leave below the clip for bright texture [default: 2/3].", "a number of stops, zero or more", GuardOf);

    private readonly Option<bool> _json = new("--json") { Description = "Write the answer as JSON." };

    private readonly Workbench _workbench;

    private readonly Terminal _terminal;

    private PlaceCommand(Workbench workbench, Terminal terminal)
    {
        _workbench = workbench;
        _terminal = terminal;
        _iso.Required = true;
        _tone.Required = true;
    }

    public static Command Create(Workbench workbench, Terminal terminal)
    {
        var words = new PlaceCommand(workbench, terminal);
        var command = new ExampleCommand("place", "Tells where a tone may be placed: headroom, texture, what the preview pretends.", Examples);
        command.Add(words._profile);
        foreach (Option option in new Option[] { words._iso, words._tone, words._scene, words._light, words._guard, words._json })
        {
            command.Add(option);
        }

        command.SetAction((parsed, cancellation) => Task.FromResult(words.Run(parsed, cancellation)));
        return command;
    }

    private int Run(ParseResult words, CancellationToken cancellation)
    {
        SensorProfile profile = ProfileSource.Read(ProfileSource.PathOf(words.GetRequiredValue(_profile), _workbench, _terminal, cancellation), cancellation);
        PlacementQuestion question = QuestionOf(words, profile);
        bool isJson = words.GetValue(_json);
        PlacementAnswer answer;
        try
        {
            answer = PlacementAnswer.Of(profile, question);
        }
        catch (IsoUnmeasuredException unmeasured) when (isJson)
        {
            FindingsDocument.Write(_terminal.Output, unmeasured.Findings);
            throw;
        }

        if (isJson)
        {
            using var document = new MemoryStream();
            PlacementAnswerWriter.Write(answer, document);
            _terminal.Output.Write(Encoding.UTF8.GetString(document.GetBuffer(), 0, (int)document.Length));
        }
        else
        {
            foreach (string line in PlacementText.Lines(profile, question, answer))
            {
                _terminal.Output.WriteLine(line);
            }
        }

        return ExitStatus.Done;
    }

    private PlacementQuestion QuestionOf(ParseResult words, SensorProfile profile)
    {
        string? light = words.GetValue(_light);
        if (light is not null && profile.Lights.All(l => l.Name != light))
        {
            string known = profile.Lights.Count == 0
                ? "It knows none but the one that the set was shot in: leave --light out."
                : $"It knows {string.Join(", ", profile.Lights.Select(l => $"\"{l.Name}\""))}.";
            throw new UsageException(PlacementText.Printable($"--light: the profile does not know \"{light}\".{NearestWord.Question(light, profile.Lights.Select(l => l.Name))} {known}"));
        }

        return new PlacementQuestion
        {
            Iso = words.GetRequiredValue(_iso)!.Value,
            ToneEv = words.GetRequiredValue(_tone)!.Value,
            Scene = words.GetValue(_scene),
            Light = light,
            GuardEv = words.GetValue(_guard) ?? EvAxis.DefaultGuardEv,
        };
    }

    private static double? GuardOf(string word) => NumberWords.Number(word) is { } guard and >= 0 ? guard : null;

    private static SceneRange? SceneOf(string word) =>
        word.Split("..", 2) is [var low, var high] && NumberWords.Number(low) is { } from && NumberWords.Number(high) is { } to && from <= to
            ? new SceneRange(from, to)
            : null;
}
