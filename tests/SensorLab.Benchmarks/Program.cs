using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Engines;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;

// One call works on a whole frame, so each is timed by itself; in the process, since that needs no second build.
Job job = Job.InProcess
    .WithStrategy(RunStrategy.Monitoring)
    .WithWarmupCount(3)
    .WithIterationCount(10);

BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args, DefaultConfig.Instance.AddJob(job));
