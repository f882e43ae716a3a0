using System.Globalization;
using System.Text;
using CsvHelper;
using SensorLab.Frames;

namespace SensorLab;

/// <summary>Reads <c>frames.csv</c>: what the user says of frames, over what the frames say of themselves.</summary>
internal static class FrameTable
{
    /// <summary>The table's name at the top of a frame set.</summary>
    public const string FileName = "frames.csv";

    private static readonly string[] Columns =
    [
        "file", "role", "iso", "exposureSeconds", "aperture", "lightStep", "light", "look", "mode", "lens", "temperatureCelsius", "note",
    ];

    // Larger than any table of frames: a hundred thousand rows.
    private const int LargestBytes = 16 << 20;

    private static readonly char[] Separators = [',', ';', '\t'];

    /// <summary>Reads the table.</summary>
    /// <param name="stream">
    /// UTF-8 text with or without a byte order mark, a header row with names in any case of letters, and commas, semicolons
    /// or tabs between columns.
    /// </param>
    /// <returns>The rows, none twice.</returns>
    /// <exception cref="FrameTableException">
    /// An unknown, doubled or missing column, a value that is none of its column's, a row of more or fewer fields than
    /// the header, a path that leaves the frame set, a file named twice, quotes that do not close, text that is not
    /// UTF-8, or more than 16 MB of it.
    /// </exception>
    public static IReadOnlyList<FrameRow> Read(Stream stream)
    {
        string text = TextOf(stream);
        char separator = SeparatorOf(text);
        using CsvReader csv = CsvReader.FromText(WithoutBareQuotes(text, separator), Csv(separator));
        try
        {
            csv.ReadHeader();
            return RowsOf(csv);
        }
        catch (CsvFormatException e)
        {
            throw new FrameTableException(
                (int)Math.Max(1, e.LineNumber),
                "The row does not have the header's columns, or its quotes do not close.",
                separator == ','
                    ? "Give every row as many fields as the header, and quotes in pairs; write decimals with a point, or with a comma in quotes, or separate columns by semicolons."
                    : "Give every row as many fields as the header, and quotes in pairs.",
                e);
        }
    }

    /// <summary>The separator that makes columns of the header; a comma where none does.</summary>
    private static char SeparatorOf(string text)
    {
        string header = text.AsSpan().TrimStart().ToString().Split('\n', 2)[0];
        return Separators.MaxBy(s => header.Split(s).Count(h => ColumnOf(h) is not null));
    }

    /// <summary>A quote in the midst of a field that none began is seconds, as cameras show them: 2".</summary>
    private static string WithoutBareQuotes(string text, char separator)
    {
        char[] written = text.ToCharArray();
        bool isStart = true;
        bool isQuoted = false;
        for (int i = 0; i < written.Length; i++)
        {
            char c = written[i];
            if (isQuoted)
            {
                isQuoted = c != '"';
            }
            else if (c == '"' && (isStart || written[i - 1] == '"'))
            {
                isQuoted = true;
            }
            else if (c == '"')
            {
                written[i] = FrameTableCells.DoublePrime;
            }

            isStart = !isQuoted && (c == separator || c is '\n' or '\r' || (isStart && c == ' '));
        }

        return new string(written);
    }

    private static string? ColumnOf(string written) =>
        Columns.FirstOrDefault(c => c.Equals(written.Trim().Trim('"').Trim(), StringComparison.OrdinalIgnoreCase));

    private static CsvReaderOptions Csv(char separator) => new()
    {
        Separator = separator,
        DetectSeparatorHint = false,
        TrackLineNumbers = true,
        TrimWhitespace = true,
        MalformedData = CsvMalformedDataHandling.Throw,

        // A row of more fields than the header has is most often a decimal comma: it must not shift the columns.
        FieldCountMismatch = CsvFieldCountHandling.Throw,
    };

    private static string TextOf(Stream stream)
    {
        if (stream.Length > LargestBytes)
        {
            throw new FrameTableException(1, "The table is larger than 16 MB.", "Keep one row for each frame of this set.");
        }

        using var reader = new StreamReader(stream, new UTF8Encoding(false, throwOnInvalidBytes: true));
        try
        {
            return reader.ReadToEnd();
        }
        catch (DecoderFallbackException e)
        {
            throw new FrameTableException(1, "The text is not UTF-8.", "Save the table as CSV in UTF-8.", e);
        }
    }

    private static List<FrameRow> RowsOf(CsvReader csv)
    {
        string[] columns = KnownColumns(csv.Headers);
        var rows = new List<FrameRow>();
        var lineOfFile = new Dictionary<string, int>(StringComparer.Ordinal);
        while (csv.Read())
        {
            FrameRow row = RowOf(new FrameTableCells(csv, columns));
            if (!lineOfFile.TryAdd(row.File, row.Line))
            {
                throw new FrameTableException(
                    row.Line,
                    string.Create(CultureInfo.InvariantCulture, $"The file {row.File} was named in line {lineOfFile[row.File]} already."),
                    "Keep one row for each file.");
            }

            rows.Add(row);
        }

        return rows;
    }

    private static string[] KnownColumns(IReadOnlyList<string> header)
    {
        if (header.Count == 0)
        {
            throw new FrameTableException(1, "The table is empty.", $"Begin with a header row: {string.Join(',', Columns)}.");
        }

        string[] names = [.. header.Select(h => ColumnOf(h) ?? throw new FrameTableException(
            1,
            $"The column \"{h.Trim()}\" is not known.",
            $"{NearestWord.Question(h.Trim(), Columns)}Separate columns by commas and name them as these: {string.Join(',', Columns)}."))];
        if (names.GroupBy(n => n, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } doubled)
        {
            throw new FrameTableException(1, $"The column \"{doubled.Key}\" is there twice.", "Keep one of them.");
        }

        return names.Contains("file", StringComparer.Ordinal)
            ? names
            : throw new FrameTableException(1, "The column \"file\" is missing.", "Name each row's file, from the frame set's top.");
    }

    private static FrameRow RowOf(FrameTableCells cells)
    {
        string written = cells.Text("file") ?? throw cells.Fault("The row names no file.", "Fill the column file, or remove the row.");
        return new FrameRow
        {
            Line = cells.Line,
            File = FramePath.Normalised(written)
                ?? throw cells.Fault($"The path \"{written}\" leads out of the frame set.", "Name files from the frame set's top, for example bracket/P0012.dng."),
            Role = RoleOf(cells),
            IsSetAside = IsNone(cells.Text("role")),
            Iso = cells.WholeNumber("iso", lowest: 1),
            ExposureSeconds = cells.Seconds("exposureSeconds"),
            ApertureFNumber = cells.Number("aperture", n => n is >= 0 and <= 1000, "an f-number, 0 for a lens without contacts"),
            LightStep = cells.Text("lightStep"),
            Light = cells.Text("light"),
            Look = cells.Text("look"),
            Mode = cells.Text("mode"),
            Lens = cells.Text("lens"),
            TemperatureCelsius = cells.Number("temperatureCelsius", n => n is > -100 and < 200, "degrees Celsius"),
            Note = cells.Text("note"),
        };
    }

    private static FrameRole? RoleOf(FrameTableCells cells) => cells.Text("role") is not { } name || IsNone(name)
        ? null
        : RoleWord.Read(name) ?? throw cells.Fault(
            $"The role \"{name}\" is not known.",
            $"{NearestWord.Question(name, [.. RoleWord.Proper, RoleWord.None])}Use dark, metered, bracket, light, or none for a frame of something else.");

    private static bool IsNone(string? name) => RoleWord.None.Equals(name, StringComparison.OrdinalIgnoreCase);
}
