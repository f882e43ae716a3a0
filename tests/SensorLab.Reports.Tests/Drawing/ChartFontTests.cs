using SensorLab.Reports.Drawing;

namespace SensorLab.Reports.Tests.Drawing;

public sealed class ChartFontTests
{
    [Fact]
    public void Choose_DejaVuInstalled_IsTaken() =>
        Assert.Equal("DejaVu Sans", ChartFont.Choose(["Arial", "Zapf", "DejaVu Sans"], (_, _) => true).Family);

    [Fact]
    public void Choose_WithoutIt_TakesTheNextPreferredThatHoldsAllSigns() =>
        Assert.Equal("Arial", ChartFont.Choose(["Aardvark", "Verdana", "Arial"], (family, text) => family != "Verdana" || text == "AZaz09").Family);

    [Fact]
    public void Choose_NoneHoldsAllSigns_TakesOneWithLetters() =>
        Assert.Equal("Plain", ChartFont.Choose(["Icons", "Plain"], (family, text) => family == "Plain" && text == "AZaz09").Family);

    [Fact]
    public void Choose_NoFonts_StatesTheRemedy()
    {
        FontsMissingException thrown = Assert.Throws<FontsMissingException>(() => ChartFont.Choose([], (_, _) => true));

        Assert.Contains("apt-get install fonts-dejavu-core", thrown.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Choose_FontsWithoutLetters_AreNone() =>
        Assert.Throws<FontsMissingException>(() => ChartFont.Choose(["Icons"], (_, _) => false));
}
