using System.Text;
using SensorLab.Profiles.Placement;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Pages;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Pocket;

/// <summary>The pocket sheet as a page for a phone: a calculator where scripts run, tables everywhere.</summary>
internal sealed class PocketPage
{
    // Its fields are drawn by the script from the sheet's own figures.
    private const string Calculator =
        """
        <div id="themes" role="group" aria-label="Brightness" hidden>
        <button type="button" value="auto">Auto</button><button type="button" value="sun">Sun</button><button type="button" value="dark">Dark room</button>
        </div>
        <form id="calculator" hidden>
        <div id="camera"></div>
        <section id="read"><h2>Spot readings</h2><div id="readings"></div></section>
        <section id="result" aria-labelledby="set-title">
        <h2 id="set-title">Set</h2>
        <p id="answer" role="status" aria-live="polite"><output id="set">–</output><span id="verdict"></span></p>
        <div id="set-tools" class="row" hidden>
        <button type="button" id="less">−⅓ light</button><button type="button" id="more">+⅓ light</button><button type="button" id="advised">Advised</button>
        </div>
        </section>
        <section id="preview"><h2>What the camera will show</h2><div id="warnings"></div></section>
        <section id="trust"><h2>How sure</h2><p id="sure"></p><ul id="cautions"></ul></section>
        </form>

        """;

    private readonly HtmlWriter _html;
    private readonly PocketSheet _sheet;

    private PocketPage(HtmlWriter html, PocketSheet sheet) => (_html, _sheet) = (html, sheet);

    /// <summary>The page.</summary>
    /// <param name="sheet">The sheet.</param>
    /// <returns>UTF-8.</returns>
    public static byte[] Of(PocketSheet sheet) => PageShell.Document(
        $"Pocket sheet: {PocketWords.Name(sheet.Bodies[0])}", html => new PocketPage(html, sheet).Write(), ["pocket.css"], ["pocket-arithmetic.js", "pocket.js"]);

    private void Write()
    {
        using (_html.In("main"))
        {
            WriteHeader();
            _html.Markup(Calculator);
            using IDisposable figures = _html.In("section", ("id", "figures"));
            _html.Leaf("h2", "The figures");
            foreach (PocketBody body in _sheet.Bodies)
            {
                WriteBody(body);
            }

            WriteNotes();
        }

        _html.Break();
        using (_html.In("script", ("type", "application/json"), ("id", "sheet")))
        {
            _html.Markup(Data());
        }

        _html.Break();
    }

    private void WriteHeader()
    {
        PocketBody body = _sheet.Bodies[0];
        using IDisposable header = _html.In("header");
        WholeWords.Write(_html, "h1", PocketWords.Name(body));
        _html.Leaf("p", string.Join(" · ", PocketWords.State(body)), ("class", "quiet"));
    }

    private void WriteBody(PocketBody body)
    {
        if (_sheet.Bodies.Count > 1)
        {
            WholeWords.Write(_html, "h3", PocketWords.Name(body));
            _html.Leaf("p", string.Join(" · ", PocketWords.State(body)), ("class", "quiet"));
            _html.Leaf("p", body.Kinship == PocketKinship.InHand ? "The body in hand." : PocketWords.Kinship(body), ("class", "mark"));
        }

        WriteTable(PocketTables.Placement(body));
        WriteTable(PocketTables.Lights(body));
        WriteTable(PocketTables.Previews(body));
        WriteTable(PocketTables.DialIn(body));
        WriteList(body.NoDialIn.Select(reason => $"Nothing to dial in: {reason}"));
        WriteList(PocketWords.Cautions(body));
    }

    private void WriteTable(ReportTable table)
    {
        if (table.Rows.Count > 0)
        {
            HtmlTable.Write(_html, table);
            _html.Break();
        }
    }

    private void WriteList(IEnumerable<string> items)
    {
        string[] all = [.. items];
        if (all.Length == 0)
        {
            return;
        }

        using IDisposable list = _html.In("ul");
        foreach (string item in all)
        {
            _html.Leaf("li", item);
        }
    }

    private void WriteNotes()
    {
        _html.Leaf("h3", "How to read it");
        using (_html.In("ol"))
        {
            foreach (string step in PocketWords.Use)
            {
                _html.Leaf("li", step);
            }
        }

        WriteList([PocketWords.OntoThePhone, PocketWords.Criterion, PocketWords.Uncertainty, PocketWords.Flare, PocketWords.OtherLight]);
    }

    private string Data()
    {
        using var stream = new MemoryStream();
        PocketSheetWriter.Write(_sheet, stream);
        return ScriptData.Of($$"""{"sheet":{{Encoding.UTF8.GetString(stream.ToArray())}},"scales":{{PocketScales.Json}}}""");
    }
}
