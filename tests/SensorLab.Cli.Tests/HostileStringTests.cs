using SensorLab.Frames;
using SensorLab.Fuzzing.Commands;
using SensorLab.Fuzzing.Documents;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Simulation.Bodies;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>
/// Every text field of every document holds each of the hostile strings once, and every output is text that steers nothing:
/// terminal, page, chart, table, file name.
/// </summary>
public sealed class HostileStringTests
{
    /// <summary>In one turn every string stands in some field; in as many as there are strings every one in each.</summary>
    private const int TurnsOfAQuickRun = 1;

    /// <summary>Hyphened words have markup of our own, so that they stay on one line. Each field has a number behind: what a bundle leaves out must not be another field's text.</summary>
    private const string Harmless = "Plain half-words";

    [Fact]
    public void AnyCommand_HostileStringsInSomeFields_StayText() => AssertNone(Faults(TurnsOfAQuickRun, name => name is "profile.json" or "body.json"));

    [Fact]
    [Trait("Category", "Study")]
    public void AnyCommand_EveryHostileStringInEveryField_StaysText()
    {
        int runs = 0;
        List<string> faults = Faults(HostileStrings.All.Count, _ => true, () => runs++);

        AttackResults.Write(
            "hostile strings",
            "SENSORLAB_WRITE_RESULTS=1 dotnet run -c Release --project tests/SensorLab.Cli.Tests -- --filter-method '*EveryHostileStringInEveryField*'",
            [FormattableString.Invariant($"{HostileStrings.All.Count} strings, each in every free text field of every document, through every command that reads it: {runs} runs, {faults.Count} faults.")]);
        AssertNone(faults);
    }

    private static void AssertNone(List<string> faults) => Assert.True(faults.Count == 0, string.Join('\n', faults));

    private static List<string> Faults(int turns, Func<string, bool> isChosen, Action? ran = null)
    {
        using var fuzzer = new DocumentFuzzer(seed: 1);
        var faults = new List<string>();
        foreach ((string name, string text, string[][] commands) in fuzzer.Documents.Where(d => isChosen(d.Name)))
        {
            string[] free = [.. TextFields.Of(text).Where(field => IsFree(name, text, field))];
            Assert.NotEmpty(free);
            var plain = new Dictionary<string[], OutputShape>();
            foreach (string[] command in commands)
            {
                fuzzer.Put(name, TextFields.Filled(text, field => Array.IndexOf(free, field) is >= 0 and var at ? FormattableString.Invariant($"{Harmless} {at}") : null), command, (told, folder) => plain[command] = OutputShape.Of(told, folder));
            }

            for (int turn = 0; turn < turns; turn++)
            {
                string hostile = TextFields.Filled(text, field => Array.IndexOf(free, field) is >= 0 and var at ? HostileStrings.Short[(at + turn) % HostileStrings.All.Count] : null);
                foreach (string[] command in commands)
                {
                    string place = $"{name}, turn {turn}, {string.Join(' ', command)}: ";
                    CommandOutcome outcome = fuzzer.Put(name, hostile, command, (told, folder) =>
                        faults.AddRange(OutputShape.Of(told, folder).FaultsBeside(plain[command]).Select(fault => place + fault)));
                    ran?.Invoke();
                    faults.AddRange(new[] { outcome.Fault }.OfType<string>().Select(fault => place + fault));
                }
            }
        }

        return faults;
    }

    // Words of a fixed list, versions and times take nothing else; of a truth and a manifest every text may be another.
    private static bool IsFree(string name, string text, string field)
    {
        using var folder = new TemporaryFolder();
        string path = folder.File(name);
        File.WriteAllText(path, TextFields.Filled(text, f => f == field ? Harmless : null));
        try
        {
            _ = name switch
            {
                "profile.json" or "fitted.json" => (object)SensorProfileReader.ReadFile(path),
                "plan.json" => ShotPlanDocument.ReadFile(path),
                "body.json" => VirtualBodyFile.Read(path),
                "settings.json" => Settings.Read(path),
                _ => path,
            };
            return true;
        }
        catch (Exception e) when (e is ProfileFormatException or PlanFormatException or MalformedFileException)
        {
            return false;
        }
    }
}
