namespace SensorLab.FlawMatrix;

/// <summary>Runs many sets, a few at a time, and tells of those that matter as they come.</summary>
internal static class SetPool
{
    /// <summary>Runs all.</summary>
    /// <param name="sets">The sets, not yet begun.</param>
    /// <param name="jobs">How many at a time.</param>
    /// <param name="matters">Whose line is told.</param>
    /// <returns>The outcomes in the order of the sets.</returns>
    public static async Task<IReadOnlyList<SetOutcome>> RunAsync(IReadOnlyList<Func<Task<SetOutcome>>> sets, int jobs, Func<SetOutcome, bool> matters)
    {
        var outcomes = new SetOutcome[sets.Count];
        await Parallel.ForEachAsync(Enumerable.Range(0, sets.Count), new ParallelOptions { MaxDegreeOfParallelism = jobs }, async (i, _) =>
        {
            outcomes[i] = await sets[i]();
            if (matters(outcomes[i]))
            {
                await Console.Error.WriteLineAsync(outcomes[i].Line);
            }
        });
        return outcomes;
    }
}
