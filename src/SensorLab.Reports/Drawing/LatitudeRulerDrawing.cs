using System.Globalization;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Draws the latitude ruler: rows of tapering bars, and the 95 % intervals magnified at either side.</summary>
internal sealed class LatitudeRulerDrawing : ChartDrawing
{
    private const float FigureSize = 13;
    private const float IsoRight = 76;
    private const float LensWidth = 128;
    private const float LensGap = 18;
    private const float LensInset = 21;
    private const float WideRow = 50;
    private const float TightRow = 38;
    private const int MostWideRows = 10;
    private const float ColumnTitles = 42;
    private const float AxisRoom = 56;
    private const float BlockHeight = 50;
    private const float BlockWords = 20;
    private const float BlockTitles = 22;

    // Half a label of the axis stands beyond either end.
    private const float BlockInset = 16;
    private const float ShadowLensLeft = IsoRight + 16;
    private const float RulerLeft = ShadowLensLeft + LensWidth + LensGap;
    private const float BrightLensLeft = WideWidth - WideEdge - LensWidth;
    private const float WideEdge = 24;
    private const float RulerRight = BrightLensLeft - LensGap;

    private readonly LatitudeRulerModel _model;
    private readonly float _rowHeight;
    private readonly float _rowsTop;

    /// <summary>Lays the ruler out.</summary>
    /// <param name="model">What it shows.</param>
    /// <param name="font">What its words are set in.</param>
    /// <param name="headed">Whether the chart carries its own heading.</param>
    /// <param name="narrow">Whether it is the form for a phone.</param>
    public LatitudeRulerDrawing(LatitudeRulerModel model, ChartFont font, bool headed = true, bool narrow = false)
        : base(model.Heading, font, headed, narrow)
    {
        _model = model;
        _rowHeight = narrow ? BlockHeight : model.Rows.Count > MostWideRows ? TightRow : WideRow;
        _rowsTop = HeadingBottom + (narrow ? BlockTitles : ColumnTitles);
        Height = MathF.Ceiling(Measure(pen => DrawLegend(pen, ChartTheme.Light)) + 16);
    }

    /// <inheritdoc/>
    public override float Height { get; }

    private float RowsBottom => _rowsTop + (_rowHeight * Math.Max(1, _model.Rows.Count));

    /// <inheritdoc/>
    protected override void DrawChart(Pen pen, ChartTheme theme)
    {
        DrawStripes(pen, theme);
        if (IsNarrow)
        {
            DrawBlocks(pen, theme);
            DrawLegend(pen, theme);
            return;
        }

        Panel ruler = PanelAt(RulerLeft, RulerRight, _model.Axis, theme);
        Panel shadowLens = PanelAt(ShadowLensLeft + LensInset, ShadowLensLeft + LensWidth - LensInset, _model.Lens, theme);
        Panel brightLens = PanelAt(BrightLensLeft + LensInset, BrightLensLeft + LensWidth - LensInset, _model.Lens, theme);
        foreach (Panel panel in new[] { ruler, shadowLens, brightLens })
        {
            panel.Draw(pen.Canvas);
        }

        DrawColumnTitles(pen, theme, ruler.Column(0));
        var bars = new RulerRowDrawing(pen, theme, ruler);
        foreach ((int index, LatitudeRow row) in _model.Rows.Index())
        {
            float middle = _rowsTop + (index * _rowHeight) + (_rowHeight / 2) + (_rowHeight == WideRow ? 4 : 0);
            pen.Text(row.Iso.ToString(CultureInfo.InvariantCulture), IsoRight, middle + 5, 14, theme.Ink, SKTextAlign.Right, bold: true);
            bars.Draw(row, middle, withCriteria: _rowHeight == WideRow);
            DrawLens(pen, theme, shadowLens, row.ShadowEnd, middle);
            DrawLens(pen, theme, brightLens, row.BrightEnd, middle);
        }

        DrawLegend(pen, theme);
    }

    // An ISO a block: its figures above its bar.
    private void DrawBlocks(Pen pen, ChartTheme theme)
    {
        Panel ruler = PanelAt(Edge + BlockInset, Width - Edge - BlockInset, _model.Axis, theme);
        ruler.Draw(pen.Canvas);
        float grey = ruler.Column(0);
        pen.Text("middle grey", grey, _rowsTop - 8, 12, theme.Ink, SKTextAlign.Center, bold: true);
        var bars = new RulerRowDrawing(pen, theme, ruler);
        foreach ((int index, LatitudeRow row) in _model.Rows.Index())
        {
            float top = _rowsTop + (index * _rowHeight);
            pen.Line(grey, top + BlockWords + 2, grey, top + _rowHeight, theme.Ink, 1.4f);
            bars.Draw(row, top + BlockWords + 11, withCriteria: false);
            DrawBlockWords(pen, theme, row, top);
        }
    }

    private void DrawBlockWords(Pen pen, ChartTheme theme, LatitudeRow row, float top)
    {
        float baseline = top + 15;
        pen.Box(new SKRect(Edge, top, Width - Edge, top + BlockWords), (int)MathF.Round((top - _rowsTop) / _rowHeight) % 2 == 0 ? theme.Zone : theme.Page);
        string iso = string.Create(CultureInfo.InvariantCulture, $"ISO {row.Iso}");
        pen.Text(iso, Edge + 2, baseline, FigureSize, theme.Ink, SKTextAlign.Left, bold: true);
        string words = $"{EvText.Mark(row.ShadowEnd)} to {EvText.Mark(row.BrightEnd)}";
        float room = Width - (2 * Edge) - pen.Measure(iso, FigureSize, bold: true) - 14;
        pen.Text(words, Width - Edge - 2, baseline, Math.Min(FigureSize, FigureSize * room / pen.Measure(words, FigureSize)), theme.Ink, SKTextAlign.Right);
    }

    private Panel PanelAt(float left, float right, ChartAxis horizontal, ChartTheme theme)
    {
        var rows = new ChartAxis(string.Empty, string.Empty, AxisScale.Linear, 0, 1, []);
        var panel = new Panel(new SKRect(left, _rowsTop, right, RowsBottom), horizontal, rows, theme, Font);
        panel.Plot.Axes.Left.IsVisible = false;
        return panel;
    }

    private void DrawStripes(Pen pen, ChartTheme theme)
    {
        for (int index = 0; index < _model.Rows.Count; index += 2)
        {
            pen.Box(SKRect.Create(Edge, _rowsTop + (index * _rowHeight), Width - (2 * Edge), _rowHeight), theme.Zone);
        }
    }

    private void DrawColumnTitles(Pen pen, ChartTheme theme, float greyColumn)
    {
        float baseline = _rowsTop - 10;
        pen.Text("ISO", IsoRight, baseline, 13, theme.Quiet, SKTextAlign.Right);
        Centred(pen, theme, "Shadow end", "SNR 10", ShadowLensLeft + (LensWidth / 2), baseline);
        Centred(pen, theme, "Bright end", "first channel saturates", BrightLensLeft + (LensWidth / 2), baseline);
        pen.Text("middle grey", greyColumn, baseline, 13, theme.Ink, SKTextAlign.Center, bold: true);
        pen.Text("← shadow", greyColumn - 62, baseline, 13, theme.Quiet, SKTextAlign.Right);
        pen.Text("headroom →", greyColumn + 62, baseline, 13, theme.Quiet);
        pen.Line(greyColumn, _rowsTop - 5, greyColumn, RowsBottom, theme.Ink, 1.4f);
    }

    private static void Centred(Pen pen, ChartTheme theme, string upper, string lower, float x, float baseline)
    {
        pen.Text(upper, x, baseline - 16, 13, theme.Ink, SKTextAlign.Center, bold: true);
        pen.Text(lower, x, baseline, 11.5f, theme.Quiet, SKTextAlign.Center);
    }

    private static void DrawLens(Pen pen, ChartTheme theme, Panel lens, EvMark? mark, float middle)
    {
        float centre = lens.Data.MidX;
        bool known = mark is { IsBound: false };
        string words = EvText.Mark(mark);
        float size = Math.Min(FigureSize, FigureSize * LensWidth / pen.Measure(words, FigureSize, known));
        pen.Text(words, centre, middle - (known ? 4 : -5), size, known ? theme.Ink : theme.Quiet, SKTextAlign.Center, bold: known);
        if (!known)
        {
            return;
        }

        EvMark estimate = mark!.Value;
        float left = Math.Max(lens.Data.Left, lens.Column(estimate.Lower95 - estimate.Ev));
        float right = Math.Min(lens.Data.Right, lens.Column(estimate.Upper95 - estimate.Ev));
        new RulerMarks(pen, theme).Interval(left, centre, right, middle + 8);
    }

    private float DrawLegend(Pen pen, ChartTheme theme)
    {
        var legend = new Legend(RulerLegend.Items(_model, theme));
        return legend.Draw(pen, Edge, RowsBottom + AxisRoom, Width - (2 * Edge), theme);
    }
}
