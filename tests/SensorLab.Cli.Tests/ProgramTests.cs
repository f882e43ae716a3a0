using System.Diagnostics;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>The built program as the shell sees it.</summary>
public sealed class ProgramTests : IDisposable
{
    private const int PatienceSeconds = 120;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Program_Version_IsDone()
    {
        (int status, string output, string error) = await RunAsync("--version");

        Assert.Equal((0, string.Empty), (status, error));
        Assert.StartsWith("SensorLab 0.1.0", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Program_ParseError_IsTwo()
    {
        (int status, string output, string error) = await RunAsync("characterise", "--colour");

        Assert.Equal((2, string.Empty), (status, output));
        Assert.Contains("--colour", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Program_FramesThatAreNoFolder_IsFour()
    {
        (int status, _, string error) = await RunAsync("characterise", "none", "--out", "p.json");

        Assert.Equal(4, status);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Program_Rehearse_IsDone()
    {
        (int status, string output, string error) = await RunAsync("rehearse", "été", "--iso", "100", "--pixels", "16x8");

        Assert.Equal(0, status);
        Assert.Contains("at ISO 100: été", output, StringComparison.Ordinal);

        // Not a terminal: plain lines, no steering.
        Assert.DoesNotContain('\u001b', error);
        Assert.True(Directory.Exists(_folder.File("été")));
    }

    [Theory]
    [InlineData("TERM")]
    [InlineData("INT")]
    public async Task Program_Signalled_IsCancelledAndLeavesNothing(string signal)
    {
        using Process program = Start("rehearse", "set", "--pixels", "1500x1000");
        string? line;
        do
        {
            line = await program.StandardError.ReadLineAsync(TestContext.Current.CancellationToken);
        }
        while (line is not null && !line.StartsWith("Shooting frames", StringComparison.Ordinal));

        using (Process kill = Process.Start("kill", [$"-{signal}", program.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]))
        {
            await kill.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        await EndOfAsync(program);

        Assert.Equal(130, program.ExitCode);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder.Path));
    }

    private async Task<(int Status, string Output, string Error)> RunAsync(params string[] args)
    {
        using Process program = Start(args);
        Task<string> output = program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        Task<string> error = program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await EndOfAsync(program);
        return (program.ExitCode, await output, await error);
    }

    private Process Start(params string[] args)
    {
        // A run in a shell's background starts with the interrupt ignored, which the program would inherit and respect.
        var start = new ProcessStartInfo("env", ["--default-signal=INT", "dotnet", Path.Combine(AppContext.BaseDirectory, "SensorLab.Cli.dll"), .. args])
        {
            WorkingDirectory = _folder.Path,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        return Process.Start(start)!;
    }

    private static async Task EndOfAsync(Process program)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(PatienceSeconds));
        try
        {
            await program.WaitForExitAsync(patience.Token);
        }
        catch (OperationCanceledException)
        {
            program.Kill(entireProcessTree: true);
            throw;
        }
    }
}
