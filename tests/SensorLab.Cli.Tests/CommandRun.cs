using SensorLab.Profiles;
using SensorLab.Reports;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>One command run inside the test, with doors of the library that the test chooses.</summary>
internal sealed record CommandRun(int Status, string Output, string Error)
{
    /// <summary>A library that measures nothing and gives the sample profile.</summary>
    public static Workbench Sample { get; } = Giving(SampleProfiles.ThreeIsos());

    public static Workbench Giving(SensorProfile profile) => new()
    {
        Characterise = (_, _, progress, _) =>
        {
            foreach (int done in Enumerable.Range(1, 30))
            {
                progress.Report(new CharacterisationProgress(done, 30, "bracket/P0001.dng"));
            }

            return Task.FromResult(profile);
        },
        Rehearse = (_, _, _, _) => [],
        ReportFiles = (_, _) => [new ReportFile("report.html", "a page"u8.ToArray())],
    };

    public static Workbench Throwing(Exception fault) => Sample with { Characterise = (_, _, _, _) => throw fault, Rehearse = (_, _, _, _) => throw fault, MakeKeys = (_, _) => throw fault, PlanFiles = _ => throw fault };

    public static async Task<CommandRun> OfAsync(Workbench workbench, params string[] args)
    {
        using var output = new StringWriter { NewLine = "\n" };
        using var error = new StringWriter { NewLine = "\n" };
        int status = await new CommandLine(workbench, new Terminal(output, error, Live: null)).RunAsync(args, TestContext.Current.CancellationToken);
        return new CommandRun(status, output.ToString(), error.ToString());
    }
}
