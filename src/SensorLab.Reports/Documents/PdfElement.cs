namespace SensorLab.Reports.Documents;

/// <summary>A part of a document as a reader that speaks knows it: ISO 32000-1, 14.7 and 14.8.</summary>
internal sealed class PdfElement
{
    private readonly List<PdfElement> _children = [];

    /// <summary>Makes a document's root.</summary>
    public PdfElement()
        : this("Document", null)
    {
    }

    private PdfElement(string type, string? alternative) => (Type, Alternative) = (type, alternative);

    /// <summary>Its standard structure type, such as H1, P, Table.</summary>
    public string Type { get; }

    /// <summary>A picture in words; null for what has words of its own.</summary>
    public string? Alternative { get; }

    /// <summary>Its parts, in reading order.</summary>
    public IReadOnlyList<PdfElement> Children => _children;

    /// <summary>Adds a part behind the others.</summary>
    /// <param name="type">A standard structure type.</param>
    /// <param name="alternative">A picture in words.</param>
    public PdfElement Add(string type, string? alternative = null)
    {
        var child = new PdfElement(type, alternative);
        _children.Add(child);
        return child;
    }
}
