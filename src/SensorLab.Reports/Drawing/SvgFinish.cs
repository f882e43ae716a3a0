using System.Globalization;
using System.Text;
using System.Xml;
using System.Xml.Linq;
using SensorLab.Files;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Makes of the canvas' SVG a document that scales, that screen readers understand and that survives a missing font.</summary>
internal static class SvgFinish
{
    private const string Reference = "url(#";

    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Finishes a document.</summary>
    /// <param name="canvasSvg">What the canvas wrote.</param>
    /// <param name="name">What its ids start with, so that several documents can stand in one page.</param>
    /// <param name="title">Its title.</param>
    /// <param name="description">Its alternative text.</param>
    /// <param name="size">Its size in units of the canvas.</param>
    /// <param name="unit">The unit of the size that it asks for: "px" or "mm".</param>
    /// <param name="unitPerCanvas">How many of that unit a unit of the canvas is.</param>
    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] Finish(byte[] canvasSvg, string name, string title, string description, SKSize size, string unit, float unitPerCanvas)
    {
        XDocument document = XDocument.Parse(Encoding.UTF8.GetString(canvasSvg));
        XElement root = document.Root!;
        root.SetAttributeValue("width", Number(size.Width * unitPerCanvas) + unit);
        root.SetAttributeValue("height", Number(size.Height * unitPerCanvas) + unit);
        root.SetAttributeValue("viewBox", $"0 0 {Number(size.Width)} {Number(size.Height)}");
        root.SetAttributeValue("role", "img");
        root.SetAttributeValue("aria-labelledby", $"{name}-title {name}-description");
        SvgThrift.Apply(root);
        RenumberIds(root, name);
        root.AddFirst(
            new XElement(Svg + "title", new XAttribute("id", $"{name}-title"), ForeignText.OneLine(title)),
            new XElement(Svg + "desc", new XAttribute("id", $"{name}-description"), ForeignText.OneLine(description)));
        foreach (XElement text in root.Descendants(Svg + "text"))
        {
            Simplify(text);
        }

        foreach (XAttribute family in root.DescendantsAndSelf().Attributes("font-family"))
        {
            family.Value = $"'{family.Value}', {ChartFont.Fallback}";
        }

        return Write(document);
    }

    // The canvas counts its ids on through the process: here they start anew in every document.
    private static void RenumberIds(XElement root, string name)
    {
        var numbers = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (XAttribute attribute in root.Descendants().Attributes("id"))
        {
            string id = string.Create(CultureInfo.InvariantCulture, $"{name}-{numbers.Count + 1}");
            numbers.Add(attribute.Value, id);
            attribute.Value = id;
        }

        foreach (XAttribute attribute in root.Descendants().Attributes().Where(a => a.Value.StartsWith(Reference, StringComparison.Ordinal)))
        {
            attribute.Value = $"{Reference}{numbers[attribute.Value[Reference.Length..^1]]})";
        }
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
