using System.Diagnostics;
using System.Globalization;

namespace SensorLab.Mutation;

/// <summary>A worker from outside: started when it is needed, ended where a mutant does not come back, and started again.</summary>
/// <param name="assembly">The tests that it runs.</param>
internal sealed class TestProcess(TestAssembly assembly) : IDisposable
{
    /// <summary>Memory that a worker may have, in bytes: ten times what tests take. A mutant that asks for more without end fails its test, and not the machine.</summary>
    private const long MostMemory = 4L << 30;

    private Process? _process;

    /// <summary>The classes of tests, studies left out.</summary>
    public IReadOnlyList<string> Classes() => (Ask("classes", Timeout.InfiniteTimeSpan) ?? string.Empty).Split(' ', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Runs a class without a mutant; null where it fails.</summary>
    public TestClass? Cover(string name)
    {
        if (Ask($"{name} -1", Timeout.InfiniteTimeSpan)?.Split(' ') is not ["passed", string milliseconds, string places])
        {
            return null;
        }

        HashSet<int> seen = [.. places.Split(',', StringSplitOptions.RemoveEmptyEntries).Select(p => int.Parse(p, CultureInfo.InvariantCulture))];
        return new TestClass(assembly, name, TimeSpan.FromMilliseconds(double.Parse(milliseconds, CultureInfo.InvariantCulture)), seen);
    }

    /// <summary>Whether a class passes with a mutant alive, in time and without the process's end.</summary>
    public bool Pass(string name, int mutant, TimeSpan limit) =>
        Ask(string.Create(CultureInfo.InvariantCulture, $"{name} {mutant}"), limit)?.StartsWith("passed", StringComparison.Ordinal) ?? false;

    public void Dispose()
    {
        if (_process is { } process)
        {
            _process = null;
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
            }

            process.Dispose();
        }
    }

    private string? Ask(string question, TimeSpan limit)
    {
        _process ??= Start();
        Task<string?> answer = AskAsync(_process, question);
        if (!answer.Wait(limit) || answer.Result is null)
        {
            Dispose();
            return null;
        }

        return answer.Result;
    }

    private static async Task<string?> AskAsync(Process process, string question)
    {
        await process.StandardInput.WriteLineAsync(question);
        await process.StandardInput.FlushAsync();
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.StartsWith(Worker.AnswerMark, StringComparison.Ordinal))
            {
                return line[Worker.AnswerMark.Length..];
            }
        }

        return null;
    }

    private Process Start()
    {
        string Beside(string end) => Path.Combine(assembly.Folder, assembly.Name + end);
        string[] words =
        [
            "exec", "--runtimeconfig", Beside(".runtimeconfig.json"), "--depsfile", Beside(".deps.json"),
            Path.Combine(assembly.Folder, Path.GetFileName(typeof(TestProcess).Assembly.Location)), "worker", assembly.Name,
        ];
        var start = new ProcessStartInfo("dotnet", words) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = assembly.Folder };
        start.Environment["DOTNET_GCHeapHardLimit"] = MostMemory.ToString("x", CultureInfo.InvariantCulture);
        Process process = Process.Start(start)!;
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        return process;
    }
}
