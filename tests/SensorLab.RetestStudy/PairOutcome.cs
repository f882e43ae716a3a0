using SensorLab.Retest;

namespace SensorLab.RetestStudy;

/// <summary>What one pair's re-test said.</summary>
/// <param name="Verdict">Of the whole.</param>
/// <param name="IsNamed">Whether the change is named for what it is.</param>
/// <param name="Changed">Figures called changed, and changes found.</param>
/// <param name="Undecided">Figures left open.</param>
/// <param name="OpenBeyondInterval">Figures left open though they lie beyond their margin by twice the interval that is printed.</param>
internal sealed record PairOutcome(RetestVerdict Verdict, bool IsNamed, IReadOnlyList<string> Changed, IReadOnlyList<string> Undecided, int OpenBeyondInterval)
{
    public static PairOutcome Of(RetestResult result, Scenario scenario)
    {
        ComparedFigure[] open = [.. result.Figures.Where(f => f.Verdict == RetestVerdict.Undecided)];
        return new PairOutcome(
            result.Verdict,
            scenario.IsNamed?.Invoke(result) == true,
            [.. result.Figures.Where(f => f.Verdict == RetestVerdict.Changed).Select(f => f.Address.Name), .. result.Changes.Select(c => c.Code)],
            [.. open.Select(f => f.Address.Name)],
            open.Count(IsBeyondInterval));
    }

    private static bool IsBeyondInterval(ComparedFigure figure) =>
        figure is { Margin: { } margin, Difference: { Value: { } value, Lower95: { } lower, Upper95: { } upper } } && Math.Abs(value) - margin > upper - lower;
}
