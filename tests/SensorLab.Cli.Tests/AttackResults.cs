using System.Globalization;
using SensorLab.TestData;

namespace SensorLab.Cli.Tests;

/// <summary>Gathers what the matrices of kills and full disks find, and states it in <c>RESULTS.md</c> where that is asked for.</summary>
public sealed class AttackResults : IDisposable
{
    /// <summary>1: the study writes its results when it ends.</summary>
    private const string WriteVariable = "SENSORLAB_WRITE_RESULTS";

    private const string Folder = "tests/SensorLab.Fuzzing";
    private const string Command = "SENSORLAB_WRITE_RESULTS=1 dotnet run -c Release --project tests/SensorLab.Cli.Tests -- --filter-method '*AnyCommand_Killed*' --filter-method '*AnyCommand_FullDisk*'";

    private readonly Lock _lock = new();
    private readonly List<(string Attack, string Command, bool WasHit)> _moments = [];

    /// <summary>A moment came out: every file is the old or the new one, and the next run found nothing in its way.</summary>
    /// <param name="attack">What was done to the command.</param>
    /// <param name="command">The command.</param>
    /// <param name="wasHit">Whether it was stopped, and not done before.</param>
    internal void Add(string attack, string command, bool wasHit)
    {
        lock (_lock)
        {
            _moments.Add((attack, command, wasHit));
        }
    }

    /// <summary>States a part of the study, where that is asked for.</summary>
    internal static void Write(string part, string command, IEnumerable<string> lines)
    {
        if (Environment.GetEnvironmentVariable(WriteVariable) == "1")
        {
            StudyResults.Write(Folder, part, command, string.Join('\n', lines));
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        if (_moments.Count > 0)
        {
            Write("kills and full disks", Command, Lines());
        }
    }

    private IEnumerable<string> Lines()
    {
        yield return string.Create(CultureInfo.InvariantCulture, $"{_moments.Count} moments; each listed left every file old or new, and the next run whole. A command that lost a file is not listed in full, and fails the study.");
        yield return string.Empty;
        yield return "| command | attack | moments | of them stopped before its end |";
        yield return "| --- | --- | ---: | ---: |";
        foreach (var group in _moments.GroupBy(m => (m.Command, m.Attack)).OrderBy(g => g.Key))
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"| `{group.Key.Command}` | {group.Key.Attack} | {group.Count()} | {group.Count(m => m.WasHit)} |");
        }
    }
}
