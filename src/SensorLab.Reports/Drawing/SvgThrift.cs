using System.Xml.Linq;

namespace SensorLab.Reports.Drawing;

/// <summary>Says once what the canvas says for every mark anew: a third of the bytes, the same picture.</summary>
internal static class SvgThrift
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Shortens a document as the canvas wrote it.</summary>
    /// <param name="root">Its root.</param>
    public static void Apply(XElement root)
    {
        ShareClips(root);
        JoinNeighbours(root, AreSameGroup, (first, second) => first.Add(second.Elements().ToArray()));
        foreach (XElement group in root.DescendantsAndSelf().Where(e => e == root || e.Name == Svg + "g").ToArray())
        {
            JoinNeighbours(group, AreSameStrokes, (first, second) => first.SetAttributeValue("d", first.Attribute("d")!.Value + second.Attribute("d")!.Value));
        }

        foreach (XElement element in root.Descendants())
        {
            // SVG's own default.
            element.Attributes("stroke-miterlimit").Where(a => a.Value == "4").Remove();
        }
    }

    private static void ShareClips(XElement root)
    {
        var first = new Dictionary<string, string>(StringComparer.Ordinal);
        var shared = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (XElement clip in root.Elements(Svg + "clipPath").ToArray())
        {
            string shape = string.Concat(clip.Elements().Select(e => e.ToString(SaveOptions.DisableFormatting)));
            string id = clip.Attribute("id")!.Value;
            if (first.TryGetValue(shape, out string? known))
            {
                shared.Add($"url(#{id})", $"url(#{known})");
                clip.Remove();
            }
            else
            {
                first.Add(shape, id);
            }
        }

        foreach (XAttribute reference in root.Descendants().Attributes("clip-path"))
        {
            reference.Value = shared.GetValueOrDefault(reference.Value, reference.Value);
        }
    }

    private static void JoinNeighbours(XElement parent, Func<XElement, XElement, bool> areSame, Action<XElement, XElement> join)
    {
        XElement? last = null;
        foreach (XElement element in parent.Elements().ToArray())
        {
            if (last is not null && areSame(last, element))
            {
                join(last, element);
                element.Remove();
            }
            else
            {
                last = element;
            }
        }
    }

    private static bool AreSameGroup(XElement a, XElement b) =>
        a.Name == Svg + "g" && b.Name == Svg + "g" && a.Attribute("clip-path") is not null && HaveSameAttributes(a, b, except: string.Empty);

    // Translucent strokes darken where they cross, which one path would not.
    private static bool AreSameStrokes(XElement a, XElement b) =>
        a.Name == Svg + "path" && b.Name == Svg + "path" && a.Attribute("fill")?.Value == "none"
        && a.Attribute("stroke-opacity") is null && !a.HasElements && !b.HasElements && HaveSameAttributes(a, b, except: "d");

    private static bool HaveSameAttributes(XElement a, XElement b, string except) =>
        a.Attributes().Where(x => x.Name.LocalName != except).Select(x => (x.Name, x.Value))
            .SequenceEqual(b.Attributes().Where(x => x.Name.LocalName != except).Select(x => (x.Name, x.Value)));
}
