using System.Collections.Concurrent;

namespace SensorLab.Mutation;

/// <summary>Lets mutants live one at a time under the tests that come by them, the nearest and quickest first.</summary>
/// <param name="assemblies">The test assemblies, the nearest first.</param>
/// <param name="options">Which classes to run, and how many at a time.</param>
internal sealed class MutationRun(IReadOnlyList<TestAssembly> assemblies, MutationOptions options)
{
    /// <summary>A mutant that takes this many times as long as the sound code does not come back.</summary>
    private const int SlownessFactor = 5;

    /// <summary>The first run of a class with a mutant may have a run without one before it, on a machine that has other work.</summary>
    private static readonly TimeSpan LeastLimit = TimeSpan.FromMinutes(2);

    /// <summary>Runs every class once with no mutant alive, then every mutant.</summary>
    /// <param name="mutants">The mutants by their numbers.</param>
    public IReadOnlyList<MutantOutcome> Run(SortedDictionary<int, Mutant> mutants)
    {
        // These processes have run every class soundly and go on with mutants.
        Dictionary<TestAssembly, TestProcess> first = Processes();
        TestClass[] classes = [.. assemblies.AsParallel().AsOrdered().WithDegreeOfParallelism(options.Jobs).SelectMany(a => Cover(first[a])).Where(c => c.Duration <= options.Slowest)];
        KeyValuePair<int, Mutant>[] all = [.. mutants];
        var outcomes = new MutantOutcome[all.Length];
        ConcurrentBag<Dictionary<TestAssembly, TestProcess>> idle = [first];
        Parallel.For(0, all.Length, new ParallelOptions { MaxDegreeOfParallelism = options.Jobs }, i =>
        {
            Dictionary<TestAssembly, TestProcess> processes = idle.TryTake(out Dictionary<TestAssembly, TestProcess>? free) ? free : Processes();
            TestClass[] near = [.. classes.Where(c => c.Places.Contains(all[i].Key)).OrderBy(c => assemblies.ToList().IndexOf(c.Assembly)).ThenBy(c => c.Duration)];
            TestClass? killer = near.FirstOrDefault(c => !processes[c.Assembly].Pass(c.Name, all[i].Key, Limit(c)));
            outcomes[i] = new MutantOutcome(all[i].Value, killer?.Name, near.Length);
            Console.Error.WriteLine($"{killer?.Name ?? "SURVIVED"}: {all[i].Value.Place} {all[i].Value.Change}");
            idle.Add(processes);
        });
        foreach (TestProcess process in idle.SelectMany(p => p.Values))
        {
            process.Dispose();
        }

        return outcomes;
    }

    private Dictionary<TestAssembly, TestProcess> Processes() => assemblies.ToDictionary(a => a, a => new TestProcess(a));

    private List<TestClass> Cover(TestProcess process)
    {
        List<TestClass> covered = [];
        foreach (string name in process.Classes().Where(c => c.Contains(options.TestClass, StringComparison.OrdinalIgnoreCase)))
        {
            if (process.Cover(name) is { } testClass)
            {
                covered.Add(testClass);
                Console.Error.WriteLine(FormattableString.Invariant($"{testClass.Duration.TotalSeconds:F1} s, {testClass.Places.Count} mutants: {name}"));
            }
            else
            {
                // Its failure with a mutant would mean nothing.
                Console.Error.WriteLine($"left out, fails without a mutant: {name}");
            }
        }

        return covered;
    }

    private static TimeSpan Limit(TestClass testClass) =>
        SlownessFactor * testClass.Duration > LeastLimit ? SlownessFactor * testClass.Duration : LeastLimit;
}
