using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml;

namespace SensorLab.Cli.Tests;

/// <summary>What a command's outputs are made of, whatever text they hold: tags and their attributes, scripts, cells, signs.</summary>
internal sealed partial record OutputShape
{
    private readonly SortedSet<string> _markup = new(StringComparer.Ordinal);
    private readonly List<string> _faults = [];
    private int _scripts;

    /// <summary>Looks at what was written.</summary>
    /// <param name="told">Both streams.</param>
    /// <param name="folder">Where outputs lie.</param>
    public static OutputShape Of(string told, string folder)
    {
        var shape = new OutputShape();
        shape.LookAtSigns("the terminal", told);
        if (told.Split('\n').Any(line => line == "sensorlab: done"))
        {
            shape._faults.Add("A text passes for a line of the program's.");
        }

        foreach (string file in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories))
        {
            shape.LookAt(Path.GetRelativePath(folder, file), File.ReadAllBytes(file));
        }

        return shape;
    }

    /// <summary>What is wrong with the outputs, and what of their markup those of harmless texts do not have.</summary>
    /// <param name="plain">The outputs of harmless texts.</param>
    public IEnumerable<string> FaultsBeside(OutputShape plain)
    {
        IEnumerable<string> strange = _markup.Except(plain._markup).Select(tag => $"There is {tag}.");
        return _faults.Concat(strange).Concat(_scripts > plain._scripts ? ["There are more scripts."] : []);
    }

    private void LookAt(string name, byte[] bytes)
    {
        if (!PlainName().IsMatch(name))
        {
            _faults.Add($"A file is called {name}.");
        }

        switch (Path.GetExtension(name))
        {
            case ".html":
                LookAtPage(name, Encoding.UTF8.GetString(bytes));
                break;
            case ".svg":
                LookAtDrawing(name, bytes);
                break;
            case ".csv":
                LookAtTable(name, Encoding.UTF8.GetString(bytes));
                break;
            case ".json":
                JsonDocument.Parse(bytes).Dispose();
                break;
            case ".zip":
                using (var archive = new ZipArchive(new MemoryStream(bytes)))
                {
                    foreach (ZipArchiveEntry entry in archive.Entries)
                    {
                        using var copy = new MemoryStream();
                        using Stream content = entry.Open();
                        content.CopyTo(copy);
                        LookAt(entry.FullName, copy.ToArray());
                    }
                }

                break;
        }
    }

    private void LookAtPage(string file, string page)
    {
        LookAtSigns(file, page);
        _scripts += Script().Count(page);
        foreach (Match tag in Tag().Matches(page))
        {
            string name = tag.Groups[1].Value;
            _markup.UnionWith(Attribute().Matches(tag.Groups[2].Value).Select(a => $"<{name} {a.Groups[1].Value}>").Append($"<{name}>"));
        }
    }

    private void LookAtDrawing(string name, byte[] bytes)
    {
        try
        {
            using XmlReader reader = XmlReader.Create(new MemoryStream(bytes), new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit });
            while (reader.Read())
            {
                if (reader.NodeType == XmlNodeType.Element)
                {
                    _markup.Add($"<{reader.Name}> in a drawing");
                }
            }
        }
        catch (XmlException e)
        {
            _faults.Add($"{name} is no drawing: {e.Message}");
        }
    }

    // RFC 4180; what a spreadsheet takes for a formula begins with one of these signs and is no number.
    private void LookAtTable(string name, string table)
    {
        LookAtSigns(name, table.Replace("\r\n", "\n", StringComparison.Ordinal));
        string[][] rows = [.. table.TrimEnd('\r', '\n').Split('\n').Select(row => CellsOf(row.TrimEnd('\r')))];
        if (rows.Any(row => row.Length != rows[0].Length))
        {
            _faults.Add($"{name} has a row of another length.");
        }

        foreach (string cell in rows.SelectMany(row => row).Where(cell => cell.Length > 0 && "=+-@\t\uFF1D\uFF0B\uFF0D\uFF20".Contains(cell[0], StringComparison.Ordinal)))
        {
            if (!double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out _))
            {
                _faults.Add($"{name} has the cell {cell}.");
            }
        }
    }

    private static string[] CellsOf(string row)
    {
        var cells = new List<string> { string.Empty };
        bool isQuoted = false;
        foreach (char c in row)
        {
            isQuoted ^= c == '"';
            if (c == ',' && !isQuoted)
            {
                cells.Add(string.Empty);
            }
            else if (c != '"')
            {
                cells[^1] += c;
            }
        }

        return [.. cells];
    }

    private void LookAtSigns(string name, string text)
    {
        foreach (Rune sign in text.EnumerateRunes().Where(s => s.Value is not '\n' && Rune.GetUnicodeCategory(s) is UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator).Distinct())
        {
            _faults.Add(string.Create(CultureInfo.InvariantCulture, $"{name} holds U+{sign.Value:X4}."));
        }
    }

    [GeneratedRegex(@"^[A-Za-z0-9._/-]+$")]
    private static partial Regex PlainName();

    [GeneratedRegex(@"<script\b", RegexOptions.IgnoreCase)]
    private static partial Regex Script();

    [GeneratedRegex("""<([a-zA-Z!/][^\s>]*)((?:[^"'>]|"[^"]*"|'[^']*')*)>""")]
    private static partial Regex Tag();

    [GeneratedRegex("""([a-zA-Z:-]+)(?:\s*=\s*(?:"[^"]*"|'[^']*'|[^\s"'>]+))?""")]
    private static partial Regex Attribute();
}
