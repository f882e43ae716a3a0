using SensorLab.Files;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>One part of an end's uncertainty.</summary>
/// <param name="Source">What it comes from, in words.</param>
/// <param name="HalfEv">Half of its 95 % interval in EV, a normal distribution's.</param>
/// <param name="Origin">What tells its size, in words.</param>
internal sealed record BudgetRow(string Source, double HalfEv, string Origin)
{
    /// <summary>The rows of a budget, the largest first.</summary>
    /// <param name="budget">A budget in EV.</param>
    public static IReadOnlyList<BudgetRow> Of(FigureBudget budget) =>
    [
        .. budget.Parts
            .Select(p => new BudgetRow(SourceWords(p.Source), Figure.NormalFactor95 * p.StandardUncertainty, OriginWords(p.From)))
            .OrderByDescending(r => r.HalfEv),
    ];

    private static string SourceWords(string source) => source switch
    {
        BudgetSource.Sampling => "the noise of this set",
        BudgetSource.Meter => "the meter's zero",
        BudgetSource.Shutter => "the shutter",
        BudgetSource.Light => "the lamp",
        BudgetSource.Aperture => "the diaphragm",
        BudgetSource.Temperature => "the temperature",
        _ => ForeignText.OneLine(source),
    };

    private static string OriginWords(string origin) => origin switch
    {
        BudgetOrigin.Set => "told by the set",
        BudgetOrigin.Protocol => "assumed",
        BudgetOrigin.Repeats => "told by repeats",
        _ => ForeignText.OneLine(origin),
    };
}
