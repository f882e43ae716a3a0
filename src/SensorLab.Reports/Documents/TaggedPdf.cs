using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;

namespace SensorLab.Reports.Documents;

/// <summary>Puts the names of a document's parts into the PDF that Skia wrote, for readers that speak (tagged PDF, ISO 32000-1, 14.8).</summary>
/// <remarks>
/// Skia's objects stay as they are, but for the catalog and the pages' content, whose marks become marked content. The structure
/// lies in one object stream, and the table of objects is a stream too (7.5.7 and 7.5.8): uncompressed they would double a
/// long appendix.
/// </remarks>
internal static partial class TaggedPdf
{
    private const string Language = "en";
    private const int XrefEntryBytes = 20;
    private const int ElementsInStream = 4000;

    /// <summary>The tagged document.</summary>
    /// <param name="pdf">What Skia wrote.</param>
    /// <param name="root">The document's element.</param>
    /// <param name="marks">Of every page the parts in the order of their marks.</param>
    /// <exception cref="InvalidDataException">The marks found are not the marks drawn, or the file is not of Skia's form.</exception>
    public static byte[] Of(byte[] pdf, PdfElement root, IReadOnlyList<IReadOnlyList<PdfElement?>> marks)
    {
        (SortedDictionary<int, byte[]> objects, int catalog, int info) = Objects(pdf);
        var pages = new Dictionary<int, int>();
        foreach ((int number, byte[] body) in objects.ToArray())
        {
            if (PageForm().Match(Head(body)) is { Success: true } page)
            {
                int index = Number(page.Groups["index"]);
                int content = Number(page.Groups["content"]);
                if (index >= marks.Count || !objects.TryGetValue(content, out byte[]? drawn) || !pages.TryAdd(index, number))
                {
                    throw new InvalidDataException("The document's pages are not those that were drawn.");
                }

                objects[content] = Marked(content, drawn, marks[index]);
            }
        }

        if (pages.Count != marks.Count)
        {
            throw new InvalidDataException("The document does not have as many pages as were drawn.");
        }

        int structure = objects.Keys.Max() + 1;
        objects[catalog] = Object(catalog, Head(objects[catalog]).Split("obj\n", 2)[1].Replace(
            "/Type /Catalog",
            string.Create(CultureInfo.InvariantCulture, $"/Type /Catalog\n/StructTreeRoot {structure} 0 R\n/MarkInfo <</Marked true>>\n/Lang ({Language})\n/ViewerPreferences <</DisplayDocTitle true>>"),
            StringComparison.Ordinal).Replace("endobj\n", string.Empty, StringComparison.Ordinal));
        return Written(objects, Structure(structure, root, marks, pages), catalog, info);
    }

    private static (SortedDictionary<int, byte[]> Objects, int Catalog, int Info) Objects(byte[] pdf)
    {
        Match trailer = TrailerForm().Match(Encoding.Latin1.GetString(pdf));
        if (!trailer.Success)
        {
            throw new InvalidDataException("The document has no trailer of the form expected.");
        }

        int table = Number(trailer.Groups["table"]);
        int first = table + Head(pdf.AsSpan(table).ToArray()).IndexOf('\n', "xref\n".Length) + 1;
        int count = Number(trailer.Groups["size"]);
        (int Number, int Offset)[] places =
        [
            .. Enumerable.Range(1, count - 1)
                .Select(n => (n, int.Parse(Encoding.Latin1.GetString(pdf, first + (n * XrefEntryBytes), 10), NumberStyles.None, CultureInfo.InvariantCulture)))
                .OrderBy(p => p.Item2),
        ];
        var objects = new SortedDictionary<int, byte[]>();
        foreach ((int i, (int number, int offset)) in places.Index())
        {
            objects.Add(number, pdf[offset..(i + 1 < places.Length ? places[i + 1].Offset : table)]);
        }

        return (objects, Number(trailer.Groups["root"]), Number(trailer.Groups["info"]));
    }

    // A page's content with its marks made marked content, one after the other to the page's end.
    private static byte[] Marked(int number, byte[] content, IReadOnlyList<PdfElement?> marks)
    {
        Match form = StreamForm().Match(Head(content));
        if (!form.Success)
        {
            throw new InvalidDataException("A page's content is not of the form expected.");
        }

        byte[] data = content.AsSpan(form.Index + form.Length, Number(form.Groups["length"])).ToArray();
        string drawn = Encoding.Latin1.GetString(form.Groups["filter"].Success ? Inflated(data) : data);
        int found = 0;
        int identifier = 0;
        string marked = MarkForm().Replace(drawn, _ =>
        {
            PdfElement? element = found < marks.Count ? marks[found] : null;
            string end = found++ > 0 ? "EMC\n" : string.Empty;
            return element is null
                ? end + "/Artifact BMC\n"
                : string.Create(CultureInfo.InvariantCulture, $"{end}/{element.Type} <</MCID {identifier++}>> BDC\n");
        });
        return found == marks.Count
            ? Stream(number, string.Empty, Encoding.Latin1.GetBytes(found > 0 ? marked + "EMC\n" : marked))
            : throw new InvalidDataException("A page does not hold the marks that were drawn on it.");
    }

    // The root first, then the elements as they are read, numbered from it on.
    private static List<(int Number, string Body)> Structure(int first, PdfElement root, IReadOnlyList<IReadOnlyList<PdfElement?>> marks, Dictionary<int, int> pages)
    {
        Dictionary<PdfElement, int> numbers = [];
        Dictionary<PdfElement, List<(int Page, int Identifier)>> contents = [];
        void Count(PdfElement element)
        {
            numbers.Add(element, first + 1 + numbers.Count);
            contents.Add(element, []);
            foreach (PdfElement child in element.Children)
            {
                Count(child);
            }
        }

        Count(root);
        var parents = new StringBuilder();
        foreach ((int page, IReadOnlyList<PdfElement?> drawn) in marks.Index())
        {
            PdfElement[] named = [.. drawn.OfType<PdfElement>()];
            parents.Append(CultureInfo.InvariantCulture, $"{page} [{string.Join(' ', named.Select(e => Reference(numbers[e])))}]\n");
            foreach ((int identifier, PdfElement element) in named.Index())
            {
                contents[element].Add((page, identifier));
            }
        }

        List<(int Number, string Body)> bodies = [(first, $"<</Type /StructTreeRoot\n/K {Reference(numbers[root])}\n/ParentTree <</Nums [{parents}]>>>>")];
        void Write(PdfElement element, int parent)
        {
            bodies.Add((numbers[element], Body(element, parent, contents[element], numbers, pages)));
            foreach (PdfElement child in element.Children)
            {
                Write(child, numbers[element]);
            }
        }

        Write(root, first);
        return bodies;
    }

    private static string Body(PdfElement element, int parent, List<(int Page, int Identifier)> contents, Dictionary<PdfElement, int> numbers, Dictionary<int, int> pages)
    {
        var body = new StringBuilder($"<</S /{element.Type} /P {Reference(parent)}");
        if (contents.Count > 0)
        {
            body.Append(" /Pg ").Append(Reference(pages[contents[0].Page]));
        }

        // Words first, then parts: no element here has words behind a part.
        IEnumerable<string> kids = contents
            .Select(c => c.Page == contents[0].Page
                ? c.Identifier.ToString(CultureInfo.InvariantCulture)
                : string.Create(CultureInfo.InvariantCulture, $"<</Type /MCR /Pg {Reference(pages[c.Page])} /MCID {c.Identifier}>>"))
            .Concat(element.Children.Select(child => Reference(numbers[child])));
        body.Append(" /K [").AppendJoin(' ', kids).Append(']');
        if (element.Type == "TH")
        {
            body.Append(" /A <</O /Table /Scope /Column>>");
        }

        if (element.Alternative is { } words)
        {
            body.Append(" /Alt <FEFF").Append(Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(words))).Append('>');
        }

        return body.Append(">>").ToString();
    }

    private static byte[] Written(SortedDictionary<int, byte[]> objects, List<(int Number, string Body)> structure, int catalog, int info)
    {
        using var file = new MemoryStream();
        file.Write(Encoding.Latin1.GetBytes("%PDF-1.5\n%\u00D3\u00EB\u00E9\u00E1\n"));
        var entries = new SortedDictionary<int, (byte Kind, int Place, int Index)>();
        foreach ((int number, byte[] body) in objects)
        {
            entries.Add(number, (1, (int)file.Length, 0));
            file.Write(body);
        }

        int next = structure[^1].Number + 1;
        foreach ((int Number, string Body)[] chunk in structure.Chunk(ElementsInStream))
        {
            var head = new StringBuilder();
            var bodies = new StringBuilder();
            foreach ((int index, (int number, string body)) in chunk.Index())
            {
                entries.Add(number, (2, next, index));
                head.Append(CultureInfo.InvariantCulture, $"{number} {bodies.Length} ");
                bodies.Append(body).Append('\n');
            }

            entries.Add(next, (1, (int)file.Length, 0));
            string form = string.Create(CultureInfo.InvariantCulture, $"/Type /ObjStm /N {chunk.Length} /First {head.Length} ");
            file.Write(Stream(next++, form, Encoding.Latin1.GetBytes($"{head}{bodies}")));
        }

        int start = (int)file.Length;
        entries.Add(next, (1, start, 0));
        file.Write(Stream(
            next,
            string.Create(CultureInfo.InvariantCulture, $"/Type /XRef /Size {next + 1} /W [1 4 2] /Root {Reference(catalog)} /Info {Reference(info)} "),
            [.. Enumerable.Range(0, next + 1).SelectMany(n => Entry(entries.GetValueOrDefault(n)))]));
        file.Write(Encoding.Latin1.GetBytes(string.Create(CultureInfo.InvariantCulture, $"startxref\n{start}\n%%EOF\n")));
        return file.ToArray();
    }

    private static byte[] Entry((byte Kind, int Place, int Index) entry) =>
        [entry.Kind, (byte)(entry.Place >> 24), (byte)(entry.Place >> 16), (byte)(entry.Place >> 8), (byte)entry.Place, (byte)(entry.Index >> 8), (byte)entry.Index];

    private static byte[] Object(int number, string body) => Encoding.Latin1.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{number} 0 obj\n{body.TrimEnd('\n')}\nendobj\n"));

    private static byte[] Stream(int number, string form, byte[] data)
    {
        using var packed = new MemoryStream();
        using (var deflate = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            deflate.Write(data);
        }

        string head = string.Create(CultureInfo.InvariantCulture, $"{number} 0 obj\n<<{form}/Filter /FlateDecode /Length {packed.Length}>> stream\n");
        return [.. Encoding.Latin1.GetBytes(head), .. packed.ToArray(), .. "\nendstream\nendobj\n"u8];
    }

    private static byte[] Inflated(byte[] data)
    {
        using var inflate = new ZLibStream(new MemoryStream(data), CompressionMode.Decompress);
        using var plain = new MemoryStream();
        inflate.CopyTo(plain);
        return plain.ToArray();
    }

    private static string Reference(int number) => string.Create(CultureInfo.InvariantCulture, $"{number} 0 R");

    private static int Number(Group group) => int.Parse(group.Value, NumberStyles.None, CultureInfo.InvariantCulture);

    // Dictionaries are ASCII; a stream behind one is not looked at.
    private static string Head(byte[] body)
    {
        int stream = body.AsSpan().IndexOf("stream\n"u8);
        return Encoding.Latin1.GetString(body, 0, stream < 0 ? body.Length : stream + "stream\n".Length);
    }

    [GeneratedRegex(@"/Type /Page\n(?:.*\n)*?/Contents (?<content>[0-9]+) 0 R\n(?:.*\n)*?/StructParents (?<index>[0-9]+)\n", RegexOptions.CultureInvariant)]
    private static partial Regex PageForm();

    [GeneratedRegex(@"/Size (?<size>[0-9]+)\n/Root (?<root>[0-9]+) 0 R\n/Info (?<info>[0-9]+) 0 R>>\nstartxref\n(?<table>[0-9]+)\n%%EOF", RegexOptions.CultureInvariant | RegexOptions.RightToLeft)]
    private static partial Regex TrailerForm();

    [GeneratedRegex(@"<<(?<filter>/Filter /FlateDecode\s)?/Length (?<length>[0-9]+)>>\sstream\n", RegexOptions.CultureInvariant)]
    private static partial Regex StreamForm();

    [GeneratedRegex(@"[0-9]+ [0-9]+ \.0625 \.03125 re\nf\n", RegexOptions.CultureInvariant)]
    private static partial Regex MarkForm();
}
