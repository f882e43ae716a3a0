using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Makes of the canvas' SVG a document that scales, that screen readers understand and that survives a missing font.</summary>
internal static class SvgFinish
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Finishes a document.</summary>
    /// <param name="canvasSvg">What the canvas wrote.</param>
    /// <param name="title">Its title.</param>
    /// <param name="description">Its alternative text.</param>
    /// <param name="size">Its size in <paramref name="unit"/>.</param>
    /// <param name="unit">"px" or "mm".</param>
    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] Finish(byte[] canvasSvg, string title, string description, SKSize size, string unit)
    {
        XDocument document = XDocument.Parse(Encoding.UTF8.GetString(canvasSvg));
        XElement root = document.Root!;
        (string width, string height) = (Number(size.Width), Number(size.Height));
        root.SetAttributeValue("width", width + unit);
        root.SetAttributeValue("height", height + unit);
        root.SetAttributeValue("viewBox", $"0 0 {width} {height}");
        root.SetAttributeValue("role", "img");
        root.SetAttributeValue("aria-labelledby", "chart-title chart-description");
        root.AddFirst(
            new XElement(Svg + "title", new XAttribute("id", "chart-title"), title),
            new XElement(Svg + "desc", new XAttribute("id", "chart-description"), description));
        foreach (XElement text in root.Descendants(Svg + "text"))
        {
            Simplify(text);
        }

        return Write(document);
    }

    // The canvas places every glyph by itself and ends the lists with a comma, which SVG does not allow:
    // the first place is enough, and another font then spaces its own letters.
    private static void Simplify(XElement text)
    {
        foreach (string name in new[] { "x", "y" })
        {
            string? list = text.Attribute(name)?.Value;
            text.SetAttributeValue(name, list?.Split(',')[0].Trim());
        }

        if (text.Attribute("font-family") is { } family)
        {
            family.Value = $"'{family.Value}', {ChartFont.Fallback}";
        }

        text.Value = text.Value.Trim();
    }

    private static byte[] Write(XDocument document)
    {
        using var stream = new MemoryStream();
        var settings = new XmlWriterSettings { Encoding = new UTF8Encoding(false), Indent = true, IndentChars = " ", NewLineChars = "\n" };
        using (var writer = XmlWriter.Create(stream, settings))
        {
            document.Save(writer);
        }

        stream.WriteByte((byte)'\n');
        return stream.ToArray();
    }

    private static string Number(float value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
