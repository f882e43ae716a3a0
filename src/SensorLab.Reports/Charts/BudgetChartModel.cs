using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>What the ± of an ISO's bright end is made of, apart from its drawing.</summary>
/// <param name="Heading">The words that stand with it.</param>
/// <param name="Rows">The parts, the largest first.</param>
/// <param name="Whole">Half of the printed interval, in EV.</param>
internal sealed record BudgetChartModel(ChartHeading Heading, IReadOnlyList<BudgetRow> Rows, double Whole)
{
    /// <summary>Builds the model for the lowest ISO that has a budget.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <returns>The model; without rows where no figure has a budget.</returns>
    public static BudgetChartModel From(SensorProfile profile)
    {
        IsoProfile? iso = profile.IsoProfiles.OrderBy(i => i.Iso).FirstOrDefault(i => i.Latitude.AboveEv?.Budget is not null);
        if (iso?.Latitude.AboveEv is not { Value: { } value, Budget: { } budget })
        {
            return new BudgetChartModel(new ChartHeading("What the ± is made of", ProfileText.Body(profile), "This profile states no parts: it was written before they were.", "No parts are stated."), [], 0);
        }

        IReadOnlyList<BudgetRow> rows = BudgetRow.Of(budget);
        double whole = Math.Max(budget.Upper95 - value, value - budget.Lower95);
        string sentence = string.Create(
            CultureInfo.InvariantCulture,
            $"At ISO {iso.Iso} the bright end is known to ±{FigureText.RoundedUp(whole, 2):F2} EV; most of it is {rows[0].Source} (±{FigureText.RoundedUp(rows[0].HalfEv, 3):F3} EV, {rows[0].Origin}). Parts add in quadrature: small ones hardly count beside a large one.");
        return new BudgetChartModel(
            new ChartHeading(
                string.Create(CultureInfo.InvariantCulture, $"What the ± is made of, ISO {iso.Iso}, bright end"),
                ProfileText.Body(profile),
                sentence,
                "Halves of 95 % intervals in EV: " + string.Join("; ", rows.Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Source} {r.HalfEv:F3}, {r.Origin}"))) + "."),
            rows,
            whole);
    }
}
