using System.Globalization;
using SensorLab.Debrief;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Documents;
using SensorLab.Reports.Pages;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Debriefs;

/// <summary>A debrief as one offline page: advice, the day on a ruler, its figures, a contact sheet to sort and filter.</summary>
internal sealed class DebriefPage
{
    private const double WideRuler = 960;
    private const double NarrowRuler = 360;

    private static readonly (string Key, string Title)[] Orders =
    [
        ("first", "look at first"), ("taken", "as taken"), ("room", "most room left"), ("over", "most over"), ("sunk", "most sunk"), ("name", "name"),
    ];

    private static readonly (string Key, string Title)[] Filters =
    [
        ("all", "All"), ("clips", "Clipped"), ("room", "A stop left or more"), ("lies", "Preview lies"),
    ];

    private readonly HtmlWriter _html;
    private readonly DayDebrief _day;

    private DebriefPage(HtmlWriter html, DayDebrief day) => (_html, _day) = (html, day);

    /// <summary>The page.</summary>
    /// <param name="day">The day.</param>
    /// <returns>UTF-8.</returns>
    public static byte[] Of(DayDebrief day) => PageShell.Document(TitleOf(day), html => new DebriefPage(html, day).Write(), ["debrief.css"], "debrief.js");

    private static string TitleOf(DayDebrief day) => $"Debrief: {NameOf(day.Body)}";

    private static string NameOf(BodyIdentity body) => string.Join(' ', new[] { body.Maker, body.Model }.OfType<string>()) is { Length: > 0 } name ? name : "unnamed body";

    private void Write()
    {
        using IDisposable main = _html.In("main");
        using (_html.In("header"))
        {
            WholeWords.Write(_html, "h1", TitleOf(_day));
            _html.Leaf("p", IdentityOf(), ("class", "quiet"));
        }

        foreach (string advice in _day.Advice)
        {
            _html.Break();
            _html.Leaf("p", advice, ("class", "advice"));
        }

        WriteFindings();
        if (_day.Frames.Count > 0)
        {
            WriteRuler();
            WriteIsos();
            WriteSheet();
        }

        _html.Leaf("h2", "How to read it");
        foreach (string words in DebriefWords.HowToRead)
        {
            _html.Leaf("p", words);
        }
    }

    private string IdentityOf()
    {
        string?[] parts =
        [
            _day.Body.SerialNumber is { } serial ? $"serial number {serial}" : null,
            _day.Body.Firmware is { } firmware ? $"firmware {firmware}" : null,
            string.Create(CultureInfo.InvariantCulture, $"{_day.Frames.Count} frames, {_day.ClippedFrames} with a clipped surface"),
            _day.Frames.Select(f => f.CaptureTime).OfType<DateTimeOffset>().DefaultIfEmpty().Min() is { Year: > 1 } first ? first.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : null,
        ];
        return ForeignText.OneLine(string.Join(", ", parts.OfType<string>()));
    }

    private void WriteFindings()
    {
        if (_day.Findings.Count == 0)
        {
            return;
        }

        using IDisposable list = _html.In("ul", ("class", "findings"));
        foreach (Finding finding in _day.Findings)
        {
            _html.Break();
            using IDisposable item = _html.In("li");
            _html.Text($"{finding.Message} {finding.Remedy}");
            if (finding.Frames.Count > 1)
            {
                using IDisposable more = _html.In("details");
                _html.Leaf("summary", string.Create(CultureInfo.InvariantCulture, $"The {finding.Frames.Count} files"));
                _html.Leaf("p", string.Join(", ", finding.Frames), ("class", "quiet"));
            }
            else if (finding.Frames is [var file] && !finding.Message.Contains(file, StringComparison.Ordinal))
            {
                _html.Leaf("span", $" {file}", ("class", "quiet"));
            }
        }
    }

    private void WriteRuler()
    {
        _html.Leaf("h2", "The day on one ruler");
        _html.Leaf("p", "Every line is a frame, from the tone that a hundredth of it lies below to its brightest thousandth, in EV from middle grey; the short mark is its middle tone. The ground is what this body holds at that ISO.");
        using (_html.In("ul", ("class", "legend")))
        {
            _html.Markup("<li><i class=\"key held\"></i>held with texture, up to the clip</li><li><i class=\"key tone\"></i>tone only (SNR 10 to 4)</li>"
                + "<li><i class=\"key range\"></i>a frame</li><li><i class=\"key beyond\"></i>beyond the clip, as far as it can be told</li>");
        }

        using IDisposable figure = _html.In("figure");
        using (_html.In("div", ("class", "wide")))
        {
            _html.Markup(DayRuler.Svg(_day, "ruler", WideRuler));
        }

        using IDisposable narrow = _html.In("div", ("class", "narrow"));
        _html.Markup(DayRuler.Svg(_day, "narrow-ruler", NarrowRuler));
    }

    private void WriteIsos()
    {
        TableColumn[] columns =
        [
            new("iso", "ISO", ColumnKind.Number),
            new("frames", "Frames", ColumnKind.Number),
            new("clippedFrames", "With a clipped surface", ColumnKind.Number),
            new("exposeToClipEv", "Room left, median, EV", ColumnKind.Number),
            new("middleHalf", "Middle half of the frames, EV", ColumnKind.Word),
            new("unknownFrames", "Clipped in every channel", ColumnKind.Number),
        ];
        HtmlTable.Write(_html, new ReportTable("isos", "Room left from the brightest surfaces to the clip; minus is too much light.", columns, [.. _day.Isos.Select(Row)]));
    }

    private static IReadOnlyList<TableCell> Row(IsoUse iso) =>
    [
        TableCell.Whole(iso.Iso),
        TableCell.Whole(iso.Frames),
        TableCell.Whole(iso.ClippedFrames),
        TableCell.Tenths(iso.ExposeToClipEv),
        iso is { LowerQuartileEv: { } low, UpperQuartileEv: { } high } ? TableCell.Words($"{EvText.Signed(low, 1)} to {EvText.Signed(high, 1)}") : TableCell.Empty,
        TableCell.Whole(iso.UnknownFrames),
    ];

    private void WriteSheet()
    {
        _html.Leaf("h2", "Contact sheet");
        using (_html.In("ul", ("class", "legend")))
        {
            _html.Markup("<li><i class=\"swatch clipped\"></i>clipped in a channel</li><li><i class=\"swatch sunk\"></i>sunk: below SNR 4</li><li><i class=\"swatch sinking\"></i>sinking: below SNR 10</li>");
        }

        WriteControls();
        using IDisposable list = _html.In("ul", ("id", "sheet"), ("class", "sheet"));
        foreach ((int rank, FrameDebrief frame) in _day.LookAtFirst().Index())
        {
            WriteFrame(rank, frame);
        }
    }

    private void WriteControls()
    {
        using IDisposable form = _html.In("form", ("id", "controls"), ("hidden", string.Empty));
        using (_html.In("label"))
        {
            _html.Text("Sort by ");
            using IDisposable select = _html.In("select", ("id", "order"));
            foreach ((string key, string title) in Orders)
            {
                _html.Leaf("option", title, ("value", key));
            }
        }

        using (_html.In("label"))
        {
            _html.Text("Show ");
            using IDisposable select = _html.In("select", ("id", "filter"));
            foreach ((string key, string title) in Filters)
            {
                _html.Leaf("option", title, ("value", key));
            }
        }

        using (_html.In("label"))
        {
            _html.Text("ISO ");
            using IDisposable select = _html.In("select", ("id", "iso"));
            _html.Leaf("option", "every", ("value", string.Empty));
            foreach (IsoUse iso in _day.Isos)
            {
                _html.Leaf("option", iso.Iso.ToString(CultureInfo.InvariantCulture));
            }
        }

        using (_html.In("label"))
        {
            _html.Text("Name holds ");
            _html.Void("input", ("id", "name"), ("type", "search"), ("autocomplete", "off"));
        }

        _html.Leaf("output", string.Empty, ("id", "shown"));
    }

    private void WriteFrame(int rank, FrameDebrief frame)
    {
        _html.Break();
        double room = frame.ExposeToClipEv ?? frame.ExposeToClipAtMostEv ?? 0;
        using IDisposable item = _html.In(
            "li",
            ("data-first", Whole(rank)),
            ("data-taken", frame.CaptureTime is { } time ? Number(time.ToUnixTimeSeconds()) : "0"),
            ("data-name", frame.File),
            ("data-iso", Whole(frame.Iso)),
            ("data-room", Number(Math.Round(room, 2))),
            ("data-sunk", Number(Math.Round(frame.ShadowPercent.Snr4, 2))),
            ("data-clips", frame.HeadroomLeftEv <= 0 ? string.Empty : null),
            ("data-lies", DebriefWords.Preview(frame) is null ? null : string.Empty));
        if (frame.Picture is { } picture)
        {
            (int width, int height) = FrameThumbnail.SizeOf(picture);
            _html.Void(
                "img", ("loading", "lazy"), ("decoding", "async"), ("width", Whole(width)), ("height", Whole(height)),
                ("alt", DebriefWords.Alternative(frame)), ("src", "data:image/webp;base64," + Convert.ToBase64String(FrameThumbnail.WebP(picture))));
        }

        _html.Leaf("b", frame.File[(frame.File.LastIndexOf('/') + 1)..], ("title", frame.File));
        _html.Leaf("span", DebriefWords.Settings(frame), ("class", "quiet"));
        _html.Leaf("span", DebriefWords.Room(frame), ("class", frame.HeadroomLeftEv <= 0 ? "room over" : "room"));
        _html.Leaf("span", DebriefWords.Shares(frame), ("class", "quiet"));
        if (DebriefWords.Preview(frame) is { } words)
        {
            _html.Leaf("span", words, ("class", "lie"));
        }
    }

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Number(double number) => number.ToString(CultureInfo.InvariantCulture);
}
