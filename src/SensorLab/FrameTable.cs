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

    private static readonly CsvReaderOptions Csv = new()
    {
        Separator = ',',
        DetectSeparatorHint = false,
        TrackLineNumbers = true,
        TrimWhitespace = true,
        MalformedData = CsvMalformedDataHandling.Throw,

        // A row of more fields than the header has is most often a decimal comma: it must not shift the columns.
        FieldCountMismatch = CsvFieldCountHandling.Throw,
    };

    /// <summary>Reads the table.</summary>
    /// <param name="stream">UTF-8 text with or without a byte order mark, a header row, commas.</param>
    /// <returns>The rows, none twice.</returns>
    /// <exception cref="FrameTableException">
    /// An unknown, doubled or missing column, a value that is none of its column's, a row of more or fewer fields than
    /// the header, a path that leaves the frame set, a file named twice, quotes that do not close, text that is not
    /// UTF-8, or more than 16 MB of it.
    /// </exception>
    public static IReadOnlyList<FrameRow> Read(Stream stream)
    {
        using CsvReader csv = CsvReader.FromText(TextOf(stream), Csv);
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
                "Give every row as many fields as the header; write decimals with a point and quotes in pairs.",
                e);
        }
    }

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
        RequireKnownColumns(csv.Headers);
        var rows = new List<FrameRow>();
        var lineOfFile = new Dictionary<string, int>(StringComparer.Ordinal);
        while (csv.Read())
        {
            FrameRow row = RowOf(new FrameTableCells(csv));
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

    private static void RequireKnownColumns(IReadOnlyList<string> header)
    {
        if (header.Count == 0)
        {
            throw new FrameTableException(1, "The table is empty.", $"Begin with a header row: {string.Join(',', Columns)}.");
        }

        string[] names = [.. header.Select(h => h.Trim())];
        if (names.FirstOrDefault(n => !Columns.Contains(n, StringComparer.Ordinal)) is { } unknown)
        {
            throw new FrameTableException(
                1,
                $"The column \"{unknown}\" is not known.",
                $"Separate columns by commas and name them as these: {string.Join(',', Columns)}.");
        }

        if (names.GroupBy(n => n, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } doubled)
        {
            throw new FrameTableException(1, $"The column \"{doubled.Key}\" is there twice.", "Keep one of them.");
        }

        if (!names.Contains("file", StringComparer.Ordinal))
        {
            throw new FrameTableException(1, "The column \"file\" is missing.", "Name each row's file, from the frame set's top.");
        }
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
            Iso = cells.WholeNumber("iso", lowest: 1),
            ExposureSeconds = cells.Seconds("exposureSeconds"),
            ApertureFNumber = cells.Number("aperture", n => n is >= 0 and <= 1000, "an f-number, 0 for a lens without contacts"),
            LightStep = cells.Text("lightStep"),
            Light = cells.Text("light"),
            Look = cells.Text("look"),
            Mode = cells.Text("mode"),
            Lens = cells.Text("lens"),
            TemperatureCelsius = cells.Number("temperatureCelsius", n => n is > -100 and < 200, "degrees Celsius"),
        };
    }

    private static FrameRole? RoleOf(FrameTableCells cells) => cells.Text("role") is not { } name
        ? null
        : FramePath.RoleNamed(name) ?? throw cells.Fault($"The role \"{name}\" is not known.", "Use dark, metered, bracket or light.");
}
