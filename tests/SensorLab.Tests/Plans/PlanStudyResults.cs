using System.Globalization;
using SensorLab.TestData;

namespace SensorLab.Tests.Plans;

/// <summary>Gathers what the study of all plans finds, and states it in <c>RESULTS.md</c> where that is asked for.</summary>
public sealed class PlanStudyResults : IDisposable
{
    /// <summary>1: the study writes its results when it ends.</summary>
    private const string WriteVariable = "SENSORLAB_WRITE_RESULTS";

    private const string Command = "SENSORLAB_WRITE_RESULTS=1 dotnet run -c Release --project tests/SensorLab.Tests -- --filter-method '*Shoot_EveryPlan_*'";

    private readonly List<PlannedRatio> _ratios = [];
    private int _begun;
    private int _ended;

    /// <summary>A plan is about to be shot.</summary>
    internal void Begin() => _begun++;

    /// <summary>A plan came out: intake had nothing to say, nothing was missing, and these are its uncertainties.</summary>
    internal void Add(IEnumerable<PlannedRatio> ratios)
    {
        _ended++;
        _ratios.AddRange(ratios);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        if (_begun > 0 && Environment.GetEnvironmentVariable(WriteVariable) == "1")
        {
            StudyResults.Write("tests/SensorLab.Tests/Plans", "Every plan, shot twice", Command, string.Join('\n', Lines()));
        }
    }

    private IEnumerable<string> Lines()
    {
        yield return string.Create(CultureInfo.InvariantCulture, $"{_begun} plans; in {_begun - _ended} of them intake or the plan's comparison had something to say.");
        yield return string.Empty;
        yield return "| stated over predicted uncertainty | estimates | smallest | mean | largest |";
        yield return "| --- | ---: | ---: | ---: | ---: |";
        foreach (IGrouping<string, PlannedRatio> figure in _ratios.GroupBy(r => r.Figure))
        {
            yield return string.Create(
                CultureInfo.InvariantCulture,
                $"| {figure.Key} | {figure.Count()} | {figure.Min(r => r.Ratio):F3} | {figure.Average(r => r.Ratio):F3} | {figure.Max(r => r.Ratio):F3} |");
        }
    }
}
