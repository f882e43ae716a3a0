using System.Globalization;
using SensorLab.Retest;
using SensorLab.Profiles;

namespace SensorLab.RetestStudy;

/// <summary>Whether the further pairs that a re-test promises decide: the later set is shot anew with as many more.</summary>
internal sealed class FurtherStudy
{
    private readonly string _name;
    private int _promised;
    private int _decided;
    private int _wrong;
    private int _none;

    private FurtherStudy(string name) => _name = name;

    public bool IsMissed => _decided < 0.8 * _promised;

    /// <summary>Read noise off by a share of its margin in the later set, on a region so small that much stays open.</summary>
    public static FurtherStudy Of(string name, double readNoiseFactor, RetestVerdict right, int pairs, int salt, int jobs)
    {
        var study = new FurtherStudy(name);
        StudyBody changed = StudyBody.Unchanged.With(i => i with { ReadNoiseElectron = readNoiseFactor * i.ReadNoiseElectron });
        Parallel.For(0, pairs, new ParallelOptions { MaxDegreeOfParallelism = jobs }, i => study.Try(changed, right, (salt * 1_000_000) + (i * 10)));
        return study;
    }

    public string Row() => string.Create(
        CultureInfo.InvariantCulture,
        $"| {_name} | {_promised} | {100.0 * _decided / Math.Max(1, _promised):0.0} | {100.0 * _wrong / Math.Max(1, _promised):0.0} | {_none} | {(IsMissed ? "decide too seldom" : string.Empty)} |");

    private void Try(StudyBody changed, RetestVerdict right, int seed)
    {
        // The earlier set is twice as large, or nothing that is added to the later one could help.
        StudySetting first = new() { Rows = 60, Columns = 40, BracketFrames = 8, DarkFrames = 16 };
        StudySetting small = new() { Rows = 60, Columns = 40, BracketFrames = 2, DarkFrames = 2, MeteredFrames = 2 };
        SensorProfile before = StudySet.Shoot(StudyBody.Unchanged, first, "1.1", seed);
        RetestResult result = ProfileComparison.Of(before, StudySet.Shoot(changed, small, "1.2", seed + 1), [], RetestMargins.Default);
        ComparedFigure[] open = [.. result.Figures.Where(f => f.Verdict == RetestVerdict.Undecided && f.Address.Name is "readNoiseElectron" or "readNoiseDn")];
        ComparedFigure[] promised = [.. open.Where(f => f.Verdict == RetestVerdict.Undecided && f.FurtherPairs is not null)];
        Interlocked.Add(ref _none, open.Count(f => f.Verdict == RetestVerdict.Undecided) - promised.Length);
        foreach (IGrouping<int, ComparedFigure> same in promised.GroupBy(f => f.FurtherPairs!.Value))
        {
            StudySetting more = small with { BracketFrames = 2 + (2 * same.Key), DarkFrames = 2 + (2 * same.Key), MeteredFrames = 2 + (2 * same.Key) };
            RetestResult again = ProfileComparison.Of(before, StudySet.Shoot(changed, more, "1.2", seed + 2), [], RetestMargins.Default);
            foreach (ComparedFigure figure in same)
            {
                RetestVerdict verdict = again.Figures.Single(f => f.Address == figure.Address).Verdict;
                Interlocked.Increment(ref _promised);
                Interlocked.Add(ref _decided, verdict != RetestVerdict.Undecided ? 1 : 0);
                Interlocked.Add(ref _wrong, verdict != RetestVerdict.Undecided && verdict != right ? 1 : 0);
            }
        }
    }
}
