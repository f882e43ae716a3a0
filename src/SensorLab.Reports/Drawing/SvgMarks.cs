using System.Globalization;
using System.Xml.Linq;

namespace SensorLab.Reports.Drawing;

/// <summary>Draws marks and bars that follow each other in one opaque colour as one path: the order within a colour shows nowhere.</summary>
internal static class SvgMarks
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    private static readonly HashSet<string> Paint = ["fill", "stroke"];

    private static readonly HashSet<string> Geometry = ["d", "x", "y", "width", "height", "cx", "cy", "rx", "ry"];

    // What may stand beside colour and geometry without more than one colour showing.
    private static readonly HashSet<string> Plain = [.. Paint, .. Geometry, "stroke-width", "stroke-linecap", "stroke-linejoin"];

    /// <summary>Joins the marks among the children of an element.</summary>
    /// <param name="parent">The document's root, or a group.</param>
    public static void Join(XElement parent)
    {
        var run = new List<XElement>();
        string? colour = null;
        foreach (XElement element in parent.Elements().ToArray())
        {
            string? own = OneColourOf(element);
            if (own is null || own != colour)
            {
                JoinRun(run);
                run.Clear();
                colour = own;
            }

            if (own is not null)
            {
                run.Add(element);
            }
        }

        JoinRun(run);
    }

    private static void JoinRun(List<XElement> run)
    {
        foreach (IGrouping<string, XElement> alike in run.GroupBy(KindOf).Where(g => g.Skip(1).Any()))
        {
            XElement first = alike.First();
            string outline = string.Concat(alike.Select(OutlineOf));
            first.ReplaceWith(new XElement(Svg + "path", first.Attributes().Where(a => !Geometry.Contains(a.Name.LocalName)), new XAttribute("d", outline)));
            alike.Skip(1).Remove();
        }
    }

    private static string? OneColourOf(XElement element)
    {
        bool isMark = element.Name.LocalName is "path" or "rect" or "ellipse";
        if (!isMark || element.HasElements || element.Attributes().Any(a => !Plain.Contains(a.Name.LocalName)) || (element.Name.LocalName == "rect" && element.Attribute("rx") is not null))
        {
            return null;
        }

        string[] colours = [.. element.Attributes().Where(a => Paint.Contains(a.Name.LocalName) && a.Value != "none").Select(a => a.Value).Distinct()];
        return colours.Length == 1 && element.Attribute("fill") is not null ? colours[0] : null;
    }

    // Shapes of one kind run round in one direction, so that where they overlap nothing is cut out.
    private static string KindOf(XElement element)
    {
        string style = string.Join(';', element.Attributes().Where(a => !Geometry.Contains(a.Name.LocalName)).Select(a => $"{a.Name.LocalName}={a.Value}"));
        bool isFilled = element.Attribute("fill")!.Value != "none";
        return isFilled ? $"{element.Name.LocalName} {new string([.. (element.Attribute("d")?.Value ?? string.Empty).Where(char.IsLetter)])} {style}" : style;
    }

    private static string OutlineOf(XElement element)
    {
        switch (element.Name.LocalName)
        {
            case "rect":
                return $"M{Text("x")} {Text("y")}h{Text("width")}v{Text("height")}h-{Text("width")}z";
            case "ellipse":
                // Its left end, then over the top to the right end and back below.
                string left = (Number("cx") - Number("rx")).ToString("0.##", CultureInfo.InvariantCulture);
                string across = (2 * Number("rx")).ToString("0.##", CultureInfo.InvariantCulture);
                string half = $"a{Text("rx")} {Text("ry")} 0 0 1 ";
                return $"M{left} {Text("cy")}{half}{across} 0{half}-{across} 0z";
            default:
                return element.Attribute("d")!.Value;
        }

        string Text(string name) => element.Attribute(name)?.Value ?? "0";

        double Number(string name) => double.Parse(Text(name), CultureInfo.InvariantCulture);
    }
}
