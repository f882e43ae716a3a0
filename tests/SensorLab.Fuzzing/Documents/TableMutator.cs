namespace SensorLab.Fuzzing.Documents;

/// <summary>Makes a sound <c>frames.csv</c> unsound in the ways that a spreadsheet, a hand or a bad intent does.</summary>
/// <param name="seed">The same seed gives the same tables.</param>
internal sealed class TableMutator(int seed)
{
    private const int MostChanges = 4;
    private const int MostCopies = 2000;

    private static readonly string[] Cells =
    [
        "", " ", "0", "-1", "1", "400", "2147483648", "1e308", "-1e308", "5e-324", "NaN", "1/0", "0/1", "1/125", "1/125/2", "2\"5", "\"", "\"\"", "dark", "metered", "bracket", "light", "none", "DARK", "assign: ",
        "file", "role", "iso", "exposureSeconds", "lightStep", "look", "mode", "note", "../a.dng", "/etc/passwd", "dark/..", "\ufeff",
    ];

    private readonly Random _random = new(seed);

    /// <summary>A table with one to four changes.</summary>
    /// <param name="sound">The table.</param>
    public string Mutate(string sound)
    {
        List<string[]> rows = [.. sound.Split('\n').Select(line => line.Split(','))];
        for (int changes = _random.Next(1, MostChanges + 1); changes > 0 && rows.Count > 0; changes--)
        {
            Change(rows);
        }

        string text = string.Join('\n', rows.Select(row => string.Join(',', row)));
        return _random.Next(12) switch
        {
            0 => text.Replace(',', ';'),
            1 => text.ReplaceLineEndings("\r"),
            2 => text[.._random.Next(text.Length + 1)],
            3 => "\ufeff" + text,
            _ => text,
        };
    }

    private void Change(List<string[]> rows)
    {
        int at = _random.Next(3) == 0 ? 0 : _random.Next(rows.Count);
        string[] row = rows[at];
        switch (_random.Next(8))
        {
            case 0:
                rows.RemoveAt(at);
                break;
            case 1:
                rows.InsertRange(at, Enumerable.Repeat(row, (int)Math.Pow(MostCopies, _random.NextDouble())));
                break;
            case 2:
                rows[at] = [.. row, Cell()];
                break;
            case 3:
                rows[at] = row[..^1];
                break;
            case 4:
                // A column more, with values of its own or without.
                string name = Cell();
                for (int i = 0; i < rows.Count; i++)
                {
                    rows[i] = [.. rows[i], i == 0 ? name : Cell()];
                }

                break;
            default:
                if (row.Length > 0)
                {
                    rows[at] = [.. row];
                    rows[at][_random.Next(row.Length)] = Cell();
                }

                break;
        }
    }

    private string Cell() => _random.Next(2) == 0 ? Cells[_random.Next(Cells.Length)] : Quoted(HostileStrings.All[_random.Next(HostileStrings.All.Count)]);

    private string Quoted(string text) => _random.Next(2) == 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
