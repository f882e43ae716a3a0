using System.Diagnostics;
using System.Globalization;
using System.Reflection;
using Xunit.Runner.InProc.SystemConsole;

namespace SensorLab.Mutation;

/// <summary>
/// The other process: it has a test assembly loaded, with mutated code beside it, and runs classes of tests as it is told.
/// One process serves many mutants, so that code is compiled once and not for each of them.
/// </summary>
/// <remarks>
/// It reads "class mutant" a line, −1 for none, and answers "passed|failed milliseconds place,place…". A class runs once
/// without a mutant before it runs with one: what tests and code keep for good is then sound.
/// </remarks>
internal sealed class Worker
{
    /// <summary>Begins every answer, since tests may write to the same stream.</summary>
    public const string AnswerMark = "@mutation ";

    private readonly Assembly _tests;
    private readonly Type[] _switches;
    private readonly HashSet<string> _sound = [];

    private Worker(string testAssembly, IEnumerable<string> mutated)
    {
        _tests = Assembly.Load(testAssembly);
        _switches = [.. mutated.Select(m => Type.GetType($"SensorLab.Mutation.MutantSwitch, {m}")).OfType<Type>()];
    }

    /// <summary>Serves until the input ends.</summary>
    public static async Task ServeAsync(string testAssembly, IEnumerable<string> mutated)
    {
        TextWriter answers = Console.Out;
        Console.SetOut(TextWriter.Null);
        var worker = new Worker(testAssembly, mutated);
        while (await Console.In.ReadLineAsync() is { } line)
        {
            string[] words = line.Split(' ');
            string answer = words is [string testClass, string mutant]
                ? await worker.RunAsync(testClass, int.Parse(mutant, CultureInfo.InvariantCulture))
                : await worker.ClassesAsync();
            await answers.WriteLineAsync(AnswerMark + answer);
            await answers.FlushAsync();
        }
    }

    private async Task<string> ClassesAsync()
    {
        await using var output = new StringWriter();
        await XunitAsync(["-list", "classes", "-trait-", "Category=Study"], output);
        return string.Join(' ', output.ToString().Split('\n', StringSplitOptions.TrimEntries).Where(l => l.StartsWith("SensorLab.", StringComparison.Ordinal)));
    }

    private async Task<string> RunAsync(string testClass, int mutant)
    {
        if (mutant >= 0 && !_sound.Contains(testClass))
        {
            await RunAsync(testClass, -1);
        }

        foreach (Type type in _switches)
        {
            type.GetField("Alive")!.SetValue(null, mutant);
            Array.Clear(SeenOf(type));
        }

        var clock = Stopwatch.StartNew();
        int status = await XunitAsync(["-class", testClass, "-trait-", "Category=Study", "-stopOnFail", "-parallel", "none"], TextWriter.Null);
        double milliseconds = clock.Elapsed.TotalMilliseconds;
        if (mutant < 0 && status == 0)
        {
            _sound.Add(testClass);
        }

        IEnumerable<int> places = _switches.Select(SeenOf).SelectMany(seen => Enumerable.Range(0, seen.Length).Where(i => seen[i])).Distinct();
        return string.Create(CultureInfo.InvariantCulture, $"{(status == 0 ? "passed" : "failed")} {milliseconds:F0} {string.Join(',', places)}");
    }

    private async Task<int> XunitAsync(string[] words, TextWriter output)
    {
        using var runner = new ConsoleRunner([.. words, "-noLogo", "-noColor"], _tests);
        return await runner.EntryPoint(TextReader.Null, output);
    }

    private static bool[] SeenOf(Type type) => (bool[])type.GetField("Seen")!.GetValue(null)!;
}
