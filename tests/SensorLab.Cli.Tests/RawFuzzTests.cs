using SensorLab.Fuzzing.Commands;
using SensorLab.Fuzzing.Raw;

namespace SensorLab.Cli.Tests;

/// <summary>Some seconds of the fuzzer of raw files, with one seed: the long runs are tests/SensorLab.Fuzzing's.</summary>
public sealed class RawFuzzTests
{
    private const int Files = 60;
    private const int Seed = 20260512;

    [Fact]
    public void Feed_DamagedFiles_EndInAStatusOfTheContract()
    {
        using var fuzzer = new RawFuzzer(Seed);
        List<CommandOutcome> outcomes = [];
        for (int i = 0; i < Files; i++)
        {
            outcomes.Add(fuzzer.Feed().Outcome);
        }

        Assert.Empty(outcomes.Where(outcome => outcome.Fault is not null).Select(outcome => $"{outcome.Command}: {outcome.Fault}"));

        // Sets that are all refused, or all taken, would test nothing.
        Assert.InRange(outcomes.Count(outcome => outcome.Status == ExitStatus.Refused), Files / 10, Files * 9 / 10);
    }

    [Fact]
    public void FeedSound_EveryForm_IsTaken()
    {
        using var fuzzer = new RawFuzzer(Seed);

        Assert.All(fuzzer.FeedSound(), outcome => Assert.True(outcome is { Status: ExitStatus.Done, Fault: null }, $"{outcome.Command}: {outcome.Status}, {outcome.Fault}"));
    }
}
