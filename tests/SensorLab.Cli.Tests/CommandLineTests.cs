namespace SensorLab.Cli.Tests;

public sealed class CommandLineTests
{
    [Theory]
    [InlineData]
    [InlineData("develop")]
    [InlineData("characterise")]
    [InlineData("characterise", "frames")]
    [InlineData("characterise", "frames", "more", "--out", "p.json")]
    [InlineData("characterise", "frames", "--out", "p.json", "--colour")]
    [InlineData("characterise", "--colour", "--out", "p.json")]
    [InlineData("rehearse")]
    [InlineData("rehearse", "-x")]
    [InlineData("publish", "p.json")]
    [InlineData("publish", "--out", "b.zip")]
    [InlineData("publish", "--sign", "--out", "b.zip")]
    [InlineData("verify")]
    [InlineData("verify", "--all")]
    [InlineData("verify", "b.zip", "--trust")]
    [InlineData("key")]
    [InlineData("key", "k.pem")]
    public async Task Run_WordsThatAreOff_AreAUsageErrorOnStandardError(params string[] args)
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, args);

        Assert.Equal(2, run.Status);
        Assert.Empty(run.Output);
        Assert.All(run.Error.TrimEnd().Split('\n'), l => Assert.StartsWith("sensorlab: ", l, StringComparison.Ordinal));
        Assert.Contains("--help", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--help")]
    [InlineData("characterise", "--help")]
    [InlineData("rehearse", "-h")]
    [InlineData("place", "--help")]
    [InlineData("publish", "--help")]
    [InlineData("verify", "--help")]
    [InlineData("key", "--help")]
    public async Task Help_EveryCommand_FitsEightyColumnsAndHasExamples(params string[] args)
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, args);

        Assert.Equal(0, run.Status);
        Assert.Empty(run.Error);
        Assert.Contains("Usage:\n  sensorlab ", run.Output, StringComparison.Ordinal);
        Assert.Contains("Examples:\n  sensorlab ", run.Output, StringComparison.Ordinal);
        Assert.All(run.Output.Split('\n'), l => Assert.InRange(l.Length, 0, 80));
    }

    [Theory]
    [InlineData("--help")]
    [InlineData("characterise", "--help")]
    [InlineData("rehearse", "--help")]
    [InlineData("publish", "--help")]
    [InlineData("verify", "--help")]
    [InlineData("key", "--help")]
    public async Task Help_ItsExamples_Parse(params string[] args)
    {
        string help = (await CommandRun.OfAsync(CommandRun.Sample, args)).Output;
        string[] examples = [.. help.Split('\n').SkipWhile(l => l != "Examples:").Skip(1).Select(l => l.Trim()).Where(l => l.Length > 0)];
        Assert.NotEmpty(examples);

        // What is parsed ends in 4, since there is no folder or the library fails; what is not ends in 2.
        foreach (string example in examples)
        {
            CommandRun run = await CommandRun.OfAsync(CommandRun.Throwing(new IOException()), [.. example.Split(' ').Skip(1)]);
            Assert.Equal(4, run.Status);
        }
    }

    [Fact]
    public async Task Version_IsThePackages()
    {
        CommandRun run = await CommandRun.OfAsync(CommandRun.Sample, "--version");

        // The commit is there where the build knew one.
        Assert.Equal((0, string.Empty), (run.Status, run.Error));
        Assert.Matches("^SensorLab 0\\.1\\.0( \\(commit [0-9a-f]{40}\\))?\n$", run.Output);
    }
}
