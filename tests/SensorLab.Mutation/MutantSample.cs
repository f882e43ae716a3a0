using Microsoft.CodeAnalysis.CSharp;

namespace SensorLab.Mutation;

/// <summary>The mutants of a run: as many of each kind as there are, drawn by a seed, all of which compile.</summary>
internal static class MutantSample
{
    /// <summary>Draws mutants and compiles every project with its own among them.</summary>
    /// <param name="projects">The projects, what rests on others before them.</param>
    /// <param name="options">How many, by which seed, where.</param>
    /// <param name="folder">Where the mutated assemblies go.</param>
    /// <returns>The mutants by their numbers.</returns>
    public static SortedDictionary<int, Mutant> Compile(IReadOnlyList<MutatedProject> projects, MutationOptions options, string folder)
    {
        Directory.CreateDirectory(folder);
        (MutatedProject Project, Mutant Mutant)[] all = [.. projects.SelectMany(p => p.Find().Select(m => (p, m)))];
        all = [.. (options.IsAgain ? RecordedSurvivors.Among(all) : all).Where(m => IsAsked(m.Mutant, options.Place))];
        Queue<(MutatedProject Project, Mutant Mutant)> order = Shuffled(all, new Random(options.Seed));
        Console.Error.WriteLine($"{all.Length} mutants found: {string.Join(", ", all.GroupBy(m => m.Mutant.Kind).OrderBy(g => g.Key).Select(g => $"{g.Key} {g.Count()}"))}");
        SortedDictionary<int, Mutant> chosen = [];
        Dictionary<int, MutatedProject> owners = [];
        bool compiles = false;
        int next = 0;
        while (!compiles)
        {
            for (; chosen.Count < options.Mutants && order.TryDequeue(out (MutatedProject Project, Mutant Mutant) drawn); next++)
            {
                chosen.Add(next, drawn.Mutant);
                owners.Add(next, drawn.Project);
            }

            IReadOnlySet<int> failed = new HashSet<int>();
            List<CSharpCompilation> woven = [];
            foreach (MutatedProject project in projects.Reverse())
            {
                // What rests on a project that does not compile could not say why.
                if (failed.Count > 0)
                {
                    break;
                }

                woven.Add(project.With(chosen.Where(c => owners[c.Key] == project).ToDictionary(), woven));
                failed = MutatedProject.Compile(woven[^1], Path.Combine(folder, project.Name + ".dll"));
            }

            compiles = failed.Count == 0;
            foreach (int number in failed.Where(chosen.ContainsKey))
            {
                Console.Error.WriteLine($"does not compile: {chosen[number].Place} {chosen[number].Change}");
                chosen.Remove(number);
            }
        }

        return chosen;
    }

    private static bool IsAsked(Mutant mutant, string text) =>
        mutant.Place.Contains(text, StringComparison.OrdinalIgnoreCase) || mutant.Change.Contains(text, StringComparison.OrdinalIgnoreCase);

    /// <summary>The kinds take turns: sums are many, thresholds are few.</summary>
    private static Queue<(MutatedProject Project, Mutant Mutant)> Shuffled((MutatedProject Project, Mutant Mutant)[] all, Random random)
    {
        var kinds = all.GroupBy(m => m.Mutant.Kind).OrderBy(g => g.Key).Select(g => g.ToArray()).ToArray();
        Array.ForEach(kinds, random.Shuffle);
        IEnumerable<int> turns = Enumerable.Range(0, kinds.Select(k => k.Length).DefaultIfEmpty().Max());
        return new(turns.SelectMany(i => kinds.Where(k => i < k.Length).Select(k => k[i])));
    }
}
