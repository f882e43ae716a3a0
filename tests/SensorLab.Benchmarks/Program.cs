using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Engines;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using SensorLab.Benchmarks.Processes;

switch (args.FirstOrDefault())
{
    case "pairs":
        PairsComparison.Run(Options.Of(args, frames: 24, runs: 7));
        break;
    case "sets":
        SetsComparison.Run(Options.Of(args, frames: 300, runs: 3));
        break;
    case "patterns":
        PatternsComparison.Run(Options.Of(args, frames: 2, runs: 25));
        break;
    default:
        // One call works on a whole frame, so each is timed by itself; in the process, since that needs no second build.
        Job job = Job.InProcess
            .WithStrategy(RunStrategy.Monitoring)
            .WithWarmupCount(3)
            .WithIterationCount(15);
        BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args, DefaultConfig.Instance.AddJob(job));
        break;
}
