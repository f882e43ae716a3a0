using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Tests.Samples;

namespace SensorLab.Reports.Tests.Charts;

public sealed class DeclaredLevelsChartTests
{
    [Fact]
    public void From_DeclaredLevels_EqualsGolden() => GoldenModel.Verify("declared-levels", DeclaredLevelsChart.From(Declaring(511, 16_000)));

    // Measured black 512.25 and saturation 15 600 above it: white at 16 112.25.
    [Fact]
    public void Points_Declared_LessMeasured()
    {
        PlotModel model = DeclaredLevelsChart.From(Declaring(511, 16_000));

        Assert.All(model.Panels[0].Series.SelectMany(s => s.Points), p => Assert.Equal(-1.25, p.Y, 9));
        Assert.All(model.Panels[1].Series.SelectMany(s => s.Points), p => Assert.Equal(-112.25, p.Y, 9));
        Assert.All(model.Panels[0].Series.SelectMany(s => s.Points), p => Assert.Equal(2 * 1.96 * 0.01, p.UpperY95!.Value - p.LowerY95!.Value, 9));
        Assert.All(model.Panels, p => Assert.Equal("DN", p.Vertical.Unit));
    }

    [Fact]
    public void Sentence_Off_NamesSizeSideAndPlace() => Assert.Equal(
        "Furthest off: declared black lies 1.25 DN below the measured one (ISO 100, R); declared white lies 112 DN below the measured one (ISO 100, R). All figures go by what was measured.",
        DeclaredLevelsChart.From(Declaring(511, 16_000)).Heading.Sentence);

    [Fact]
    public void From_NothingDeclared_IsEmptyAndSaysSo()
    {
        PlotModel model = DeclaredLevelsChart.From(SampleProfile.ThreeIsos());

        Assert.True(model.IsEmpty);
        Assert.Equal("The files declare no black and white level, or none was measured.", model.Heading.Sentence);
    }

    private static SensorProfile Declaring(double blackDn, double whiteDn)
    {
        SensorProfile profile = SampleProfile.ThreeIsos();
        return profile with
        {
            IsoProfiles = [.. profile.IsoProfiles.Select(iso => iso with { Channels = [.. iso.Channels.Select(c => c with { DeclaredBlackDn = blackDn, DeclaredWhiteDn = whiteDn })] })],
        };
    }
}
