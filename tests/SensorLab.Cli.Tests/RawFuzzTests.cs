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
        int named = 0;
        for (int i = 0; i < Files; i++)
        {
            outcomes.Add(fuzzer.Feed(out bool isNamed).Outcome);
            named += isNamed ? 1 : 0;
        }

        Assert.Empty(outcomes.Where(outcome => outcome.Fault is not null).Select(outcome => $"{outcome.Command}: {outcome.Fault}"));

        // Damage that is never noticed, or in every file, would test nothing.
        Assert.InRange(named, Files / 10, Files * 9 / 10);
    }

    [Fact]
    public void FeedSound_EveryForm_IsTaken()
    {
        using var fuzzer = new RawFuzzer(Seed);

        // So small a set leaves a confirmation undecided now and then.
        Assert.All(fuzzer.FeedSound(), outcome => Assert.True(outcome is { Status: ExitStatus.Done or ExitStatus.Undecided, Fault: null }, $"{outcome.Command}: {outcome.Status}, {outcome.Fault}"));
    }
}
