using System.Globalization;
using SensorLab.Mutation;
using SensorLab.TestData;

// How many small faults in the measurement the tests find that tests/run.sh runs:
//   dotnet run -c Release --project tests/SensorLab.Mutation [--mutants N] [--seed N] [--place TEXT] [--class TEXT] [--again yes] [--write-results]
// The solution has been built in Release. All mutants are compiled into one assembly, each behind its number; a first run
// of every class of tests tells which it comes by; then each mutant lives alone, up to the first test that fails.
// Exit status: 0 the goal is met, 1 missed, 2 usage.
const double goal = 0.85;
// Frames to statistics to figures, and the law that is fitted. The command line's tests come by both, but late and seldom alone.
string[] mutated = ["SensorLab.Measurement", "SensorLab.Pixels", "SensorLab.Sets", "SensorLab.Law"];
string[] tests = ["SensorLab.Measurement.Tests", "SensorLab.Pixels.Tests", "SensorLab.Sets.Tests", "SensorLab.Law.Tests", "SensorLab.Tests"];

if (args is ["worker", string testAssembly])
{
    await Worker.ServeAsync(testAssembly, mutated);
    return 0;
}

if (MutationOptions.Parse(args) is not { } options)
{
    await Console.Error.WriteLineAsync(MutationOptions.Usage);
    return 2;
}

TestAssembly[] assemblies = [.. tests.Select(TestAssembly.Copy)];
string[] framework = [.. ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator).Where(f => Path.GetFileName(Path.GetDirectoryName(f)) is { } folder && char.IsAsciiDigit(folder[0]))];
string[] libraries = [.. framework, .. assemblies.SelectMany(a => a.Libraries).DistinctBy(Path.GetFileName).ExceptBy(framework.Select(Path.GetFileName), Path.GetFileName)];
MutatedProject[] projects = [.. mutated.Select(p => new MutatedProject(p, libraries))];
string output = Path.Combine(Repository.Root, "tests", "SensorLab.Mutation", "obj", "mutated");
SortedDictionary<int, Mutant> mutants;
try
{
    mutants = MutantSample.Compile(projects, options, output);
}
catch (InvalidDataException exception)
{
    await Console.Error.WriteLineAsync(exception.Message);
    return 2;
}

if (options.IsListed)
{
    foreach (Mutant mutant in mutants.Values)
    {
        Console.WriteLine($"{mutant.Kind} {mutant.Place} {mutant.Change}");
    }

    return 0;
}

foreach (TestAssembly assembly in assemblies)
{
    Array.ForEach(projects, p => assembly.Replace(Path.Combine(output, p.Name + ".dll")));
}

IReadOnlyList<MutantOutcome> outcomes = new MutationRun(assemblies, options).Run(mutants);
string table = MutationTable.Of(outcomes);
Console.WriteLine(table);
if (options.WritesResults)
{
    string asked = options.IsAgain ? "--again yes" : string.Create(CultureInfo.InvariantCulture, $"--mutants {options.Mutants} --seed {options.Seed}");
    StudyResults.Write("tests/SensorLab.Mutation", options.IsAgain ? "The survivors again" : RecordedSurvivors.Heading, $"dotnet run -c Release --project tests/SensorLab.Mutation -- {asked} --write-results", table);
}

return outcomes.Count(o => o.KilledBy is not null) >= goal * outcomes.Count ? 0 : 1;
