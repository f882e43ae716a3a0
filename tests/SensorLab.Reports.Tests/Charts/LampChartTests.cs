using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Tests.Charts;

public sealed class LampChartTests
{
    private static readonly LampReading[] Readings = [new(800, 9, 0.02), new(100, 5, -0.61), new(100, 3, 0)];

    [Fact]
    public void From_Readings_DrawsEachIsoInTheOrderOfTime()
    {
        PlotModel model = LampChart.From(Readings, "LM-2", hasTimes: true);

        Assert.Equal(["ISO 100", "ISO 800"], model.Panels[0].Series.Select(s => s.Label));
        Assert.Equal([(3, 0), (5, -0.61)], model.Panels[0].Series[0].Points.Select(p => (p.X, p.Y)));
        Assert.All(Readings, r => Assert.InRange(r.Ev, model.Panels[0].Vertical.Minimum, model.Panels[0].Vertical.Maximum));
        Assert.Equal("min", model.Horizontal.Unit);
    }

    [Fact]
    public void Sentence_NamesTheFrameFurthestOff() =>
        Assert.Contains("−0.61 EV off, at ISO 100", LampChart.From(Readings, "LM-2", hasTimes: true).Heading.Sentence, StringComparison.Ordinal);

    [Fact]
    public void From_NoReading_IsEmptyWithWords()
    {
        PlotModel model = LampChart.From([], "LM-2", hasTimes: false);

        Assert.True(model.IsEmpty);
        Assert.Equal("No frame tells of the lamp yet.", model.Heading.Sentence);
        Assert.Empty(model.Horizontal.Unit);
    }
}
