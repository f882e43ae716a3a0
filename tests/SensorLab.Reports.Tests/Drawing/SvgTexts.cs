using System.Globalization;
using System.Text;
using System.Xml.Linq;
using SensorLab.Reports.Drawing;
using SkiaSharp;

namespace SensorLab.Reports.Tests.Drawing;

/// <summary>The words of an SVG with the boxes that they fill; upright words are left out.</summary>
internal static class SvgTexts
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static XDocument Parse(byte[] svg) => XDocument.Parse(Encoding.UTF8.GetString(svg));

    public static IReadOnlyList<(string Text, SKRect Box)> Of(XDocument document, ChartFont font) =>
        [.. document.Descendants(Svg + "text").Where(t => !Transform(t).Contains("rotate", StringComparison.Ordinal)).Where(t => !Transform(t).Contains("matrix", StringComparison.Ordinal)).Select(t => (t.Value, BoxOf(t, font)))];

    private static string Transform(XElement text) => text.Attribute("transform")?.Value ?? string.Empty;

    private static SKRect BoxOf(XElement text, ChartFont font)
    {
        float size = Number(text, "font-size");
        using SKFont face = font.At(size, text.Attribute("font-weight") is not null);
        (float dx, float dy) = Translation(Transform(text));
        float left = Number(text, "x") + dx;
        float baseline = Number(text, "y") + dy;

        // The height of capitals and digits, which is what runs into lines above.
        return new SKRect(left, baseline - (0.73f * size), left + face.MeasureText(text.Value), baseline);
    }

    private static (float X, float Y) Translation(string transform)
    {
        if (transform.Length == 0)
        {
            return (0, 0);
        }

        string[] parts = transform["translate(".Length..].TrimEnd(')').Split(' ');
        return (float.Parse(parts[0], CultureInfo.InvariantCulture), float.Parse(parts[1], CultureInfo.InvariantCulture));
    }

    private static float Number(XElement element, string name) =>
        float.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
