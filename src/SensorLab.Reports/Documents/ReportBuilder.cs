using System.Globalization;
using SensorLab.Files;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>Puts a report together from a sensor profile alone.</summary>
/// <param name="profile">The sensor profile.</param>
/// <param name="font">What charts are set in.</param>
internal sealed class ReportBuilder(SensorProfile profile, ChartFont font)
{
    // Nobody reads more, and page and paper stay a file that opens; the profile and the tables beside have them all.
    private const int MostFindings = 300;
    private const int MostFrames = 3000;

    private readonly ProfileReview _review = ProfileReview.Of(profile);
    private readonly IReadOnlyList<FindingGroup> _findings = FindingGroup.Of(profile.Findings, profile);
    private readonly IsoProfile[] _isos = [.. profile.IsoProfiles.OrderBy(iso => iso.Iso)];

    /// <summary>The report.</summary>
    public ReportDocument Build() => new(
        profile,
        ProfileFacts.Name(profile),
        [ProfileFacts.Identity(profile), ProfileFacts.Circumstances(profile)],
        _review,
        [FirstScreen(), AcrossIsos(), .. _isos.Select(OfIso), Provenance(), Glossary()]);

    /// <summary>The anchor of an ISO's section.</summary>
    /// <param name="iso">The ISO.</param>
    public static string IdOf(IsoProfile iso) => string.Create(CultureInfo.InvariantCulture, $"iso-{iso.Iso}");

    private ReportSection FirstScreen()
    {
        ReportTable latitude = LatitudeTables.Of(profile, _review);
        string[] shown = ["iso", "aboveEv", "previewClipEv", "belowEv.snr40.perPixel", "belowEv.snr10.perPixel", "stands"];
        ReportTable brief = latitude.Without([.. latitude.Columns.Select(c => c.Key).Except(shown)]).WithoutEmpty();

        // What is left out stands in the table of shadow ends, and paper is not wide enough for it twice.
        ReportTable data = latitude.Without([.. latitude.Columns.Select(c => c.Key).Where(k => k.EndsWith(".atDelivery", StringComparison.Ordinal))]).WithoutEmpty();
        return new ReportSection("answer", "What it can hold", "Answer",
        [
            new AnswersBlock(_review),
            .. Brief(),
            Chart("latitude-ruler", narrow => new LatitudeRulerDrawing(LatitudeRulerModel.From(profile), font, headed: false, narrow), [], data),
            new TableBlock(brief with { Name = "latitude-brief" }),
            new WordsBlock(ProfileFacts.Limits(profile), IsQuiet: true),
            new HeadingBlock("Findings, the worst first"),
            new FindingsBlock([.. _findings.Take(MostFindings)]),
            .. Left(_findings.Count - MostFindings, "findings"),
        ]);
    }

    private IEnumerable<ReportBlock> Brief() => FindingGroup.Brief(_findings) is { Count: > 0 } lines ? [new BriefBlock(lines)] : [];

    private ReportSection AcrossIsos()
    {
        ReportTable declared = ChannelTables.Declared(profile);
        var blocks = new List<ReportBlock>
        {
            Chart("shadow-end", narrow => new PlotDrawing(ShadowEndChart.From(profile), font, headed: false, narrow),
                [FigureDefinitions.Below(10), FigureDefinitions.Below(40), FigureDefinitions.Below(1)], LatitudeTables.ShadowEnds(profile)),
            Chart("declared-levels", narrow => new PlotDrawing(DeclaredLevelsChart.From(profile), font, headed: false, narrow),
                [FigureDefinitions.DeclaredBlack, FigureDefinitions.DeclaredWhite], declared),
        };
        ReportTable budget = BudgetTables.Of(profile);
        if (budget.Rows.Count > 0)
        {
            blocks.Add(Chart("budget", narrow => new BudgetDrawing(BudgetChartModel.From(profile), font, headed: false, narrow), [], budget));
        }

        if (profile.Lights.Count > 0)
        {
            blocks.Add(new HeadingBlock("Other lights"));
            blocks.Add(new TableBlock(PreviewTables.Lights(profile)));
        }

        return new ReportSection("isos", "From ISO to ISO", "ISO to ISO", blocks);
    }

    private ReportSection OfIso(IsoProfile iso)
    {
        string name = IdOf(iso);
        var blocks = new List<ReportBlock> { new WordsBlock($"ISO {iso.Iso.ToString(CultureInfo.InvariantCulture)} {_review.StateOf(iso.Iso)}.") };
        blocks.Add(Chart($"photon-transfer-{name}", narrow => new PhotonTransferDrawing(PhotonTransferModel.From(profile, iso), font, headed: false, narrow),
            [FigureDefinitions.Variance], LevelTables.PhotonTransfer([iso]).Without("iso")));
        blocks.Add(Chart($"snr-{name}", narrow => new SnrChartDrawing(SnrChartModel.From(profile, iso), font, headed: false, narrow),
            [FigureDefinitions.Snr], LevelTables.Snr([iso]).Without("iso")));
        blocks.Add(Chart($"response-{name}", narrow => new PlotDrawing(ResponseChart.From(profile, iso), font, headed: false, narrow),
            [FigureDefinitions.Linearity], LevelTables.Response([iso]).Without("iso").WithoutEmpty()));
        blocks.Add(Chart($"fixed-pattern-{name}", narrow => new PlotDrawing(FixedPatternChart.From(profile, iso), font, headed: false, narrow),
            [FigureDefinitions.FixedPattern], LevelTables.FixedPattern([iso]).Without("iso")));
        blocks.AddRange(PreviewsOf(iso, name));
        blocks.Add(new OnDemandBlock($"Every figure of ISO {iso.Iso.ToString(CultureInfo.InvariantCulture)}, channel by channel", [new TableBlock(ChannelTables.Of(iso))]));
        return new ReportSection(name, string.Create(CultureInfo.InvariantCulture, $"The evidence at ISO {iso.Iso}"), string.Create(CultureInfo.InvariantCulture, $"ISO {iso.Iso}"), blocks);
    }

    private static ChartBlock Chart(string name, Func<bool, ChartDrawing> drawing, IReadOnlyList<FigureDefinition> reading, ReportTable data) =>
        new(name, drawing(false), drawing(true), reading, data);

    private IEnumerable<ReportBlock> PreviewsOf(IsoProfile iso, string name)
    {
        if (iso.Previews.Count == 0)
        {
            yield return new HeadingBlock("Preview");
            yield return new WordsBlock("There was no preview to compare at this ISO.");
            yield break;
        }

        yield return Chart($"preview-{name}", narrow => new PlotDrawing(ToneCurveChart.From(profile, iso), font, headed: false, narrow),
            [FigureDefinitions.PreviewClip, FigureDefinitions.HiddenHeadroom], PreviewTables.ToneCurves([iso]).Without("iso"));
        yield return new TableBlock(PreviewTables.Looks([iso]).Without("iso").WithoutEmpty() with { Name = $"previews-{name}" });
    }

    private ReportSection Provenance() => new("provenance", "What it rests on", "Provenance",
    [
        new FactsBlock(ProfileFacts.Provenance(profile)),
        new HeadingBlock("What is assumed"),
        profile.Assumptions.Count > 0 ? new ListBlock([.. profile.Assumptions.Select(ForeignText.OneLine)]) : new WordsBlock("The profile states no assumptions."),
        new HeadingBlock("How to repeat it"),
        new ListBlock(ProfileFacts.Repeat(profile)),
        new OnDemandBlock(
            $"{profile.Frames.Count.ToString(CultureInfo.InvariantCulture)} frames with role, use, reason and hash",
            [new TableBlock(ProvenanceTables.Frames(profile).Top(MostFrames)), .. Left(profile.Frames.Count - MostFrames, "frames")]),
    ]);

    private static ReportSection Glossary() => new("glossary", "What the words mean", "Words", [new GlossaryBlock(GlossaryWords.Terms, FigureDefinitions.All)]);

    private static IEnumerable<WordsBlock> Left(int more, string what) => more > 0
        ? [new WordsBlock(string.Create(CultureInfo.InvariantCulture, $"And {more} {what} more: tables/{what}.csv beside this report has them all."))]
        : [];
}
