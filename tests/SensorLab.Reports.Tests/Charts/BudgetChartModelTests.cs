using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tables;
using SensorLab.TestData;

namespace SensorLab.Reports.Tests.Charts;

public sealed class BudgetChartModelTests
{
    private static readonly SensorProfile Without = SampleProfiles.ThreeIsos();

    private static readonly SensorProfile With = Without with { IsoProfiles = [.. Without.IsoProfiles.Select(i => FigureBudgets.Complete(i, 1.0 / 3))] };

    [Fact]
    public void Rows_OfAMeteredProfile_AreTheLowestIsosPartsLargestFirst()
    {
        BudgetChartModel model = BudgetChartModel.From(With);

        FigureBudget budget = With.IsoProfiles[0].Latitude.AboveEv!.Budget!;
        Assert.Equal(budget.Parts.Count, model.Rows.Count);
        Assert.Equal("the meter's zero", model.Rows[0].Source);
        Assert.Equal(model.Rows.Select(r => r.HalfEv).OrderDescending(), model.Rows.Select(r => r.HalfEv));
        Assert.Equal((budget.Upper95 - budget.Lower95) / 2, model.Whole, 1e-9);
        Assert.Contains("At ISO 100 the bright end is known to ±0.17 EV; most of it is the meter's zero", model.Heading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Model_OfAProfileWithoutBudgets_SaysSo()
    {
        BudgetChartModel model = BudgetChartModel.From(Without);

        Assert.Empty(model.Rows);
        Assert.Contains("states no parts", model.Heading.Sentence, StringComparison.Ordinal);
        Assert.Empty(BudgetTables.Of(Without).Rows);
    }

    [Fact]
    public void Table_HasAPartOfBothEndsOfEveryIso()
    {
        ReportTable table = BudgetTables.Of(With);

        Assert.Equal(With.IsoProfiles.Sum(i => i.Latitude.AboveEv!.Budget!.Parts.Count + ProfileReview.ShadowEndOf(i)!.Budget!.Parts.Count), table.Rows.Count);
    }

    [Fact]
    public void Ruler_OfFiguresWithBudgets_DrawsWhatASecondSetWouldRespectAndNoMeterBeside()
    {
        LatitudeRow row = LatitudeRulerModel.From(With).Rows[0];

        Assert.Equal(With.IsoProfiles[0].Latitude.AboveEv!.Budget!.Upper95, row.BrightEnd!.Value.Upper95);
        Assert.Null(row.MeterStandardUncertaintyEv);
        Assert.NotNull(LatitudeRulerModel.From(Without).Rows[0].MeterStandardUncertaintyEv);
    }
}
