using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Pages;
using SkiaSharp;

namespace SensorLab.Reports.Documents;

/// <summary>A chart inside a page: one SVG whose colours are the page's, for light, dark and print.</summary>
internal static partial class PageChart
{
    private static readonly Dictionary<string, string> Names = ColourNames();

    /// <summary>Writes a chart in both its forms: one for a desk, one that a phone shows whole.</summary>
    /// <param name="html">Where to.</param>
    /// <param name="wide">The form for a desk.</param>
    /// <param name="narrow">The form for a phone.</param>
    /// <param name="name">What ids start with.</param>
    public static void Write(HtmlWriter html, ChartDrawing wide, ChartDrawing narrow, string name)
    {
        using (html.In("div", ("class", "wide")))
        {
            html.Markup(Markup(wide, name));
        }

        using (html.In("div", ("class", "narrow")))
        {
            html.Markup(Markup(narrow, name + "-narrow"));
        }
    }

    /// <summary>The chart's markup.</summary>
    /// <param name="drawing">The chart.</param>
    /// <param name="name">What its ids start with.</param>
    public static string Markup(ChartDrawing drawing, string name)
    {
        string svg = Encoding.UTF8.GetString(ChartImage.Svg(drawing, ChartTheme.Light, name));
        svg = svg[svg.IndexOf("<svg", StringComparison.Ordinal)..];
        svg = Gap().Replace(svg, ">");
        svg = Coordinates().Replace(svg, attribute => LongNumber().Replace(attribute.Value, Shortened));
        return Colour().Replace(svg, match => Names.TryGetValue(Canonical(match.Groups[2].Value), out string? variable)
            ? $"{match.Groups[1].Value}=\"var({variable})\""
            : match.Value);
    }

    private static Dictionary<string, string> ColourNames()
    {
        ChartTheme light = ChartTheme.Light;
        return new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase)
        {
            [Hex(light.Page)] = "--chart-page",
            [Hex(light.Ink)] = "--chart-ink",
            [Hex(light.Quiet)] = "--chart-quiet",
            [Hex(light.Grid)] = "--chart-grid",
            [Hex(light.Zone)] = "--chart-zone",
            [Hex(light.Headroom)] = "--chart-headroom",
            [Hex(light.Shadow)] = "--chart-shadow",
            [Hex(light.Warm)] = "--chart-warm",
            [Hex(light.Green)] = "--chart-green",
            [Hex(light.SecondGreen)] = "--chart-second-green",
        };
    }

    private static string Hex(SKColor colour) => string.Create(CultureInfo.InvariantCulture, $"#{colour.Red:x2}{colour.Green:x2}{colour.Blue:x2}");

    // The canvas writes some colours by name or in short.
    private static string Canonical(string colour) => colour switch
    {
        "white" => "#ffffff",
        { Length: 4 } => $"#{colour[1]}{colour[1]}{colour[2]}{colour[2]}{colour[3]}{colour[3]}",
        _ => colour,
    };

    [GeneratedRegex(@">\s*\n\s*(?=<)")]
    private static partial Regex Gap();

    private static string Shortened(Match number) =>
        decimal.Parse(number.Value, CultureInfo.InvariantCulture).ToString("0.##", CultureInfo.InvariantCulture);

    // Words hold figures, whose digits stay.
    [GeneratedRegex(@"(?<= (?:d|x|y|width|height|cx|cy|rx|ry|x1|y1|x2|y2|points|transform)="")[^""<>]*(?="")")]
    private static partial Regex Coordinates();

    [GeneratedRegex(@"\d+\.\d{3,}")]
    private static partial Regex LongNumber();

    [GeneratedRegex(@"\b(fill|stroke|stop-color)=""(#[0-9A-Fa-f]{3,6}|white)""")]
    private static partial Regex Colour();
}
