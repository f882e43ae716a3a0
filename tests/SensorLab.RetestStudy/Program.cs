using System.Globalization;
using SensorLab.Planning.Retest;
using SensorLab.RetestStudy;

// How often a re-test says what is true, over pairs of sets whose level records are drawn from their distributions:
//   dotnet run -c Release --project tests/SensorLab.RetestStudy [--pairs N] [--scenario TEXT] [--detail yes]
// Exit status: 0 all goals met, 1 one missed, 2 usage.
const int defaultPairs = 500;
const int mostJobs = 2;

int pairs = defaultPairs;
string text = string.Empty;
bool isDetailed = false;
for (int i = 0; i < args.Length; i += 2)
{
    string value = i + 1 < args.Length ? args[i + 1] : string.Empty;
    switch (args[i])
    {
        case "--pairs" when int.TryParse(value, CultureInfo.InvariantCulture, out pairs) && pairs > 0:
            break;
        case "--scenario" when value.Length > 0:
            text = value;
            break;
        case "--detail" when value == "yes":
            isDetailed = true;
            break;
        default:
            await Console.Error.WriteLineAsync("Usage: [--pairs N] [--scenario TEXT] [--detail yes]");
            return 2;
    }
}

int jobs = Math.Min(mostJobs, Environment.ProcessorCount);
int misses = 0;
Console.WriteLine("| what happens between the sets | pairs | equivalent (%) | undecided (%) | changed (%) | named as that (%) | misses |");
Console.WriteLine("| --- | ---: | ---: | ---: | ---: | ---: | --- |");
foreach ((Scenario scenario, int number) in Scenario.All.Select((s, i) => (s, i + 1)).Where(s => s.s.Name.Contains(text, StringComparison.OrdinalIgnoreCase)))
{
    ScenarioRun run = ScenarioRun.Of(scenario, pairs, number, jobs);
    misses += run.Misses.Count;
    Console.WriteLine(run.Row());
    if (isDetailed)
    {
        await Console.Error.WriteLineAsync($"    {run.Detail()}");
    }
}

(string Name, double Factor, RetestVerdict Right)[] promises =
[
    ("further pairs, no change", 1, RetestVerdict.Equivalent),
    ("further pairs, read noise + 2.5 %, half the margin", 1.025, RetestVerdict.Equivalent),
    ("further pairs, read noise + 10 %, twice the margin", 1.1, RetestVerdict.Changed),
];
Console.WriteLine();
Console.WriteLine("| promise | figures promised | decided (%) | decided wrongly (%) | no number named | misses |");
Console.WriteLine("| --- | ---: | ---: | ---: | ---: | --- |");
foreach (((string Name, double Factor, RetestVerdict Right) promise, int number) in promises.Select((p, i) => (p, i + 101)).Where(p => p.p.Name.Contains(text, StringComparison.OrdinalIgnoreCase)))
{
    FurtherStudy study = FurtherStudy.Of(promise.Name, promise.Factor, promise.Right, pairs, number, jobs);
    misses += study.IsMissed ? 1 : 0;
    Console.WriteLine(study.Row());
}

return misses == 0 ? 0 : 1;
