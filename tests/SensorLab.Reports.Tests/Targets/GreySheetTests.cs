using System.Globalization;
using System.Xml.Linq;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Targets;
using SensorLab.Reports.Tests.Drawing;
using SensorLab.TestData;
using SkiaSharp;

namespace SensorLab.Reports.Tests.Targets;

public sealed class GreySheetTests
{
    // The canvas writes six significant digits, so 0.01 mm are more than its rounding.
    private const double MmTolerance = 0.01;

    [Theory]
    [InlineData(PaperSize.A4, "a4")]
    [InlineData(PaperSize.A3, "a3")]
    [InlineData(PaperSize.Letter, "letter")]
    public void ToSvgAndPdf_Paper_GiveTheCommittedSheets(PaperSize paper, string name)
    {
        GoldenFile.Verify(GreySheet.ToSvg(paper), $"charts/grey-sheet-{name}.svg");
        GoldenFile.Verify(GreySheet.ToPdf(paper), $"charts/grey-sheet-{name}.pdf");
    }

    [Theory]
    [InlineData(PaperSize.A4, "210mm", "297mm")]
    [InlineData(PaperSize.A3, "297mm", "420mm")]
    [InlineData(PaperSize.Letter, "215.9mm", "279.4mm")]
    public void ToSvg_Paper_HasItsSize(PaperSize paper, string width, string height)
    {
        XElement root = SvgTexts.Parse(GreySheet.ToSvg(paper)).Root!;

        Assert.Equal((width, height), (root.Attribute("width")!.Value, root.Attribute("height")!.Value));
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.A3)]
    [InlineData(PaperSize.Letter)]
    public void ToSvg_Paper_HasABarOfHundredMillimetresAndAFieldWithinPrintersEdges(PaperSize paper)
    {
        XElement root = SvgTexts.Parse(GreySheet.ToSvg(paper)).Root!;
        XElement[] boxes = [.. root.Descendants().Where(e => e.Name.LocalName == "rect")];
        XElement[] bar = [.. boxes.Where(b => b.Attribute("fill") is null || b.Attribute("fill")!.Value == "black")];
        XElement grey = Assert.Single(boxes, b => b.Attribute("fill")?.Value == "#777");

        double barMm = bar.Max(b => Mm(b, "x") + Mm(b, "width")) - bar.Min(b => Mm(b, "x"));
        Assert.Equal(100, barMm, MmTolerance);
        Assert.Equal(10, Mm(grey, "x"), MmTolerance);
        Assert.Equal(10, Mm(grey, "y"), MmTolerance);
        Assert.True(Mm(grey, "height") > 160);
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.A3)]
    [InlineData(PaperSize.Letter)]
    public void Words_Paper_StayOnThePageApartAndOffTheGrey(PaperSize paper)
    {
        var font = ChartFont.OfThisSystem();
        var layout = new GreySheetLayout(paper, font);

        IReadOnlyList<(string Text, SKRect Box)> texts = SvgTexts.Of(SvgTexts.Parse(GreySheet.ToSvg(paper)), font);

        Assert.All(texts, text => Assert.True(text.Box.Top > layout.Field.Bottom && text.Box.Bottom < layout.Page.Height - 20 && text.Box.Right < layout.Page.Width - 20, text.Text));
        Assert.DoesNotContain(texts, one => texts.Any(other => one != other && one.Box.IntersectsWith(other.Box)));
        string words = string.Join(' ', texts.Select(t => t.Text));
        Assert.Contains("has no known reflectance, and needs none", words, StringComparison.Ordinal);
        foreach (string caution in new[] { "Lamps", "sun", "mains", "ladder", "local rules" })
        {
            Assert.Contains(caution, words, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void ToPdf_UnknownPaper_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => GreySheet.ToPdf((PaperSize)99));

    private static double Mm(XElement element, string name) =>
        double.Parse(element.Attribute(name)?.Value ?? "0", CultureInfo.InvariantCulture) / GreySheetLayout.PointsPerMm;
}
