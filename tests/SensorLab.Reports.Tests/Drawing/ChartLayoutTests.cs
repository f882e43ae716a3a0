using System.Xml.Linq;
using SensorLab.Files;
using SensorLab.Law;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tests.Samples;
using SkiaSharp;

namespace SensorLab.Reports.Tests.Drawing;

public sealed class ChartLayoutTests
{
    private static readonly ChartFont Font = ChartFont.OfThisSystem();

    [Theory]
    [MemberData(nameof(SampleStates.All), MemberType = typeof(SampleStates))]
    public void Draw_AnyState_KeepsWordsOnThePageAndApart(string state)
    {
        foreach (ChartDrawing drawing in Drawings(SampleStates.Of(state)).Concat(Drawings(SampleStates.Of(state), narrow: true)))
        {
            IReadOnlyList<(string Text, SKRect Box)> texts = SvgTexts.Of(SvgTexts.Parse(ChartImage.Svg(drawing, ChartTheme.Light, "x")), Font);

            Assert.NotEmpty(texts);
            Assert.All(texts, text => Assert.True(
                text.Box.Left >= 0 && text.Box.Right <= drawing.Width && text.Box.Top >= 0 && text.Box.Bottom <= drawing.Height,
                $"{state}: \"{text.Text}\" leaves the page at {text.Box}."));
            for (int i = 0; i < texts.Count; i++)
            {
                for (int j = i + 1; j < texts.Count; j++)
                {
                    Assert.False(
                        SKRect.Intersect(texts[i].Box, texts[j].Box) is { Width: > 0, Height: > 0 } && texts[i].Box.IntersectsWith(texts[j].Box),
                        $"{state}, {drawing.Heading.Title}: \"{texts[i].Text}\" runs into \"{texts[j].Text}\".");
                }
            }
        }
    }

    [Theory]
    [InlineData("hostile name")]
    [InlineData("three ISOs")]
    public void Svg_Texts_AreRealTextInAFamilyWithAFallback(string state)
    {
        foreach (ChartDrawing drawing in Drawings(SampleStates.Of(state)))
        {
            XDocument document = SvgTexts.Parse(ChartImage.Svg(drawing, ChartTheme.Dark, "x"));
            XElement[] texts = [.. document.Descendants().Where(e => e.Name.LocalName == "text")];

            Assert.All(texts, text => Assert.EndsWith(", Verdana, sans-serif", (text.Attribute("font-family") ?? document.Root!.Attribute("font-family"))!.Value, StringComparison.Ordinal));
            Assert.All(texts, text => Assert.DoesNotContain(',', text.Attribute("x")!.Value));
            Assert.Contains(texts, text => text.Value == drawing.Heading.Title);
            Assert.Equal(drawing.Heading.Title, document.Root!.Elements().First().Value);
            Assert.Equal(ForeignText.OneLine(drawing.Heading.AlternativeText), document.Root!.Elements().ElementAt(1).Value);
        }
    }

    [Fact]
    public void Svg_HostileModelName_StaysText()
    {
        XDocument document = SvgTexts.Parse(ChartImage.Svg(Drawings(SampleStates.Of("hostile name"))[0], ChartTheme.Light, "x"));

        Assert.DoesNotContain(document.Descendants(), element => element.Name.LocalName == "script");
        Assert.Contains(document.Descendants(), element => element.Name.LocalName == "text" && element.Value.Contains("</svg><script>alert(1)</script>", StringComparison.Ordinal));
    }

    [Fact]
    public void Svg_Ids_AreUniqueAndStartWithTheName()
    {
        XDocument document = SvgTexts.Parse(ChartImage.Svg(Drawings(SampleProfile.ThreeIsos())[3], ChartTheme.Light, "snr-iso-100"));
        string[] ids = [.. document.Descendants().Attributes("id").Select(a => a.Value)];

        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.All(ids, id => Assert.StartsWith("snr-iso-100-", id, StringComparison.Ordinal));
        Assert.All(
            document.Descendants().Attributes("clip-path"),
            reference => Assert.Contains(reference.Value["url(#".Length..^1], ids));
    }

    [Fact]
    public void Image_SameProfile_GivesTheSameBytes()
    {
        foreach ((ChartDrawing first, ChartDrawing second) in Drawings(SampleProfile.ThreeIsos()).Zip(Drawings(SampleProfile.ThreeIsos())))
        {
            Assert.Equal(ChartImage.Svg(first, ChartTheme.Dark, "x"), ChartImage.Svg(second, ChartTheme.Dark, "x"));
            Assert.Equal(ChartImage.Png(first, ChartTheme.Dark), ChartImage.Png(second, ChartTheme.Dark));
        }
    }

    [Fact]
    public void Png_Chart_HasTwiceTheLayoutsPixels()
    {
        ChartDrawing drawing = Drawings(SampleProfile.ThreeIsos())[0];

        using SKBitmap bitmap = SKBitmap.Decode(ChartImage.Png(drawing, ChartTheme.Light));

        Assert.Equal((1920, (int)(drawing.Height * 2)), (bitmap.Width, bitmap.Height));
        Assert.Equal(ChartTheme.Light.Page, bitmap.GetPixel(0, 0));
    }

    private static List<ChartDrawing> Drawings(SensorProfile profile, bool narrow = false)
    {
        var drawings = new List<ChartDrawing>
        {
            new LatitudeRulerDrawing(LatitudeRulerModel.From(profile), Font, headed: !narrow, narrow),
            new PlotDrawing(ShadowEndChart.From(profile), Font, headed: !narrow, narrow),
            new PlotDrawing(DeclaredLevelsChart.From(profile), Font, headed: !narrow, narrow),
            new BudgetDrawing(BudgetChartModel.From(profile with { IsoProfiles = [.. profile.IsoProfiles.Select(i => FigureBudgets.Complete(i, 1.0 / 3))] }), Font, headed: !narrow, narrow),
        };
        foreach (IsoProfile iso in profile.IsoProfiles)
        {
            drawings.Add(new SnrChartDrawing(SnrChartModel.From(profile, iso), Font, headed: !narrow, narrow));
            drawings.Add(new PhotonTransferDrawing(PhotonTransferModel.From(profile, iso), Font, headed: !narrow, narrow));
            drawings.Add(new PlotDrawing(ResponseChart.From(profile, iso), Font, headed: !narrow, narrow));
            drawings.Add(new PlotDrawing(FixedPatternChart.From(profile, iso), Font, headed: !narrow, narrow));
            drawings.Add(new PlotDrawing(ToneCurveChart.From(profile, iso), Font, headed: !narrow, narrow));
        }

        return drawings;
    }
}
