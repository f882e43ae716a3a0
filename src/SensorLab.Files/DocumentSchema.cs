using System.Text.Json;

namespace SensorLab.Files;

/// <summary>A JSON schema of ours (draft 2020-12), and documents held to the domains that it states.</summary>
/// <remarks>
/// Every value that a document has must be of the kind, within the range and no longer or more numerous than its schema says.
/// What must be there is the matter of the document's types, which know what may be left out: <c>required</c>, <c>oneOf</c>
/// and a null count as sound here. Time and memory are in proportion to the document.
/// </remarks>
public sealed class DocumentSchema
{
    /// <summary>Objects and lists inside one another: no document of ours needs half as many.</summary>
    public const int DepthLimit = 32;

    private readonly SchemaCheck _root;
    private readonly SchemaPass _pass;

    private DocumentSchema(SchemaRule root) => (_root, _pass) = (SchemaCheck.Of(root), SchemaPass.Of(root));

    /// <summary>Reads a schema.</summary>
    /// <param name="json">The schema's text.</param>
    /// <exception cref="ArgumentException">It has a keyword that this class does not know and would silently pass over.</exception>
    /// <exception cref="JsonException">It is no JSON.</exception>
    public static DocumentSchema Parse(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return new DocumentSchema(new SchemaBook(document.RootElement).Root);
    }

    /// <summary>Reads a schema that an assembly carries.</summary>
    /// <param name="owner">A type of the assembly.</param>
    /// <param name="resource">The resource's name.</param>
    public static DocumentSchema OfResource(Type owner, string resource)
    {
        using Stream stream = owner.Assembly.GetManifestResourceStream(resource)!;
        using var reader = new StreamReader(stream);
        return Parse(reader.ReadToEnd());
    }

    /// <summary>Requires that a document is sound.</summary>
    /// <param name="utf8">The document: JSON in UTF-8.</param>
    /// <exception cref="DocumentException">It is no JSON, nests too deep, or has a value out of its domain.</exception>
    public void Require(ReadOnlyMemory<byte> utf8)
    {
        if (IsPassed(utf8.Span))
        {
            return;
        }

        DocumentFault? fault;
        try
        {
            using var document = JsonDocument.Parse(utf8, new JsonDocumentOptions { MaxDepth = DepthLimit });
            fault = FirstFault(document.RootElement);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            throw new DocumentException("It is no JSON of its kind: damaged, cut short, or something else.", e);
        }

        if (fault is not null)
        {
            throw new DocumentException($"{(fault.Path.Length == 0 ? "The document" : fault.Path)} {fault.Reason}.");
        }
    }

    // What is not passed may be sound all the same, and gets its words by the other way.
    internal bool IsPassed(ReadOnlySpan<byte> utf8)
    {
        try
        {
            var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { MaxDepth = DepthLimit });
            return reader.Read() && _pass.IsSound(ref reader) == true && !reader.Read();
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException)
        {
            return false;
        }
    }

    /// <summary>A value that is out of its domain: the first, one before those within it.</summary>
    /// <param name="document">The document.</param>
    /// <returns>Its place and what is wrong; null where everything is sound.</returns>
    public DocumentFault? FirstFault(JsonElement document) => _root.FirstFault(document);
}
