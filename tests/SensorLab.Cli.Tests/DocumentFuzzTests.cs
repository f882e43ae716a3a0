using SensorLab.Fuzzing.Commands;
using SensorLab.Fuzzing.Documents;

namespace SensorLab.Cli.Tests;

/// <summary>Some seconds of the document fuzzer, with one seed: the long runs are tests/SensorLab.Fuzzing's.</summary>
public sealed class DocumentFuzzTests
{
    private const int Documents = 60;
    private const int Seed = 20260418;

    [Fact]
    public void Feed_MutatedDocuments_EndInAStatusOfTheContract()
    {
        using var fuzzer = new DocumentFuzzer(Seed);
        List<CommandOutcome> outcomes = [];
        for (int i = 0; i < Documents; i++)
        {
            outcomes.Add(fuzzer.Feed(out _));
        }

        Assert.Empty(outcomes.Where(outcome => outcome.Fault is not null).Select(outcome => $"{outcome.Command}: {outcome.Fault}"));

        // Documents that are all refused, or all taken, would test nothing.
        Assert.InRange(outcomes.Count(outcome => outcome.Status == ExitStatus.File), Documents / 5, Documents * 9 / 10);
    }
}
