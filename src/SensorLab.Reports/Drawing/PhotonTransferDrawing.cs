using ScottPlot;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Draws variance against mean with the profile's model, and below it each channel's residuals.</summary>
internal sealed class PhotonTransferDrawing : ChartDrawing
{
    private const float WideDark = 62;
    private const float NarrowDark = 44;
    private const float DarkGap = 10;
    private const float PlotHeight = 330;
    private const float StripHeight = 62;
    private const float LoneStripHeight = 156;
    private const float StripGap = 8;
    private const float AxisRoom = 56;
    private const float LabelSize = 12.5f;
    private const float MarkerSize = 8;
    private const float LineWidth = 1.6f;
    private const int ModelSteps = 96;

    private static readonly ChartAxis DarkAxis = new(string.Empty, string.Empty, AxisScale.Linear, 0, 1, []);

    private readonly PhotonTransferModel _model;
    private readonly float _plotTop;

    /// <summary>Lays the chart out.</summary>
    /// <param name="model">What it shows.</param>
    /// <param name="font">What its words are set in.</param>
    /// <param name="headed">Whether the chart carries its own heading.</param>
    /// <param name="narrow">Whether it is the form for a phone.</param>
    public PhotonTransferDrawing(PhotonTransferModel model, ChartFont font, bool headed = true, bool narrow = false)
        : base(model.Heading, font, headed, narrow)
    {
        _model = model;
        _plotTop = HeadingBottom + 12;
        Height = MathF.Ceiling(Measure(pen => model.IsEmpty ? DrawNote(pen, ChartTheme.Light) : DrawLegend(pen, ChartTheme.Light)) + 16);
    }

    /// <inheritdoc/>
    public override float Height { get; }

    private float DarkWidth => IsNarrow ? NarrowDark : WideDark;

    // The first column in which letters set upright keep within the chart.
    private float UprightLeft => IsNarrow ? 13 : Edge + 2;

    private float StripsTop => _plotTop + PlotHeight + 22;

    private float OneStrip => _model.Channels.Count == 1 ? LoneStripHeight : StripHeight;

    private float Bottom => StripsTop + (_model.Channels.Count * (OneStrip + StripGap)) - StripGap;

    /// <inheritdoc/>
    protected override void DrawChart(Pen pen, ChartTheme theme)
    {
        if (_model.IsEmpty)
        {
            DrawNote(pen, theme);
            return;
        }

        DrawVariances(pen, theme);
        foreach ((int index, PhotonTransferChannel channel) in _model.Channels.Index())
        {
            float top = StripsTop + (index * (OneStrip + StripGap));
            DrawResiduals(pen, theme, channel, top, isLast: index == _model.Channels.Count - 1);
        }

        pen.Upright(_model.Residual.Title, UprightLeft, (StripsTop + Bottom) / 2, 13.5f, theme.Ink);
        pen.Upright($"({_model.Residual.Unit})", UprightLeft + 16, (StripsTop + Bottom) / 2, LabelSize, theme.Ink);
        pen.Text("dark", PlotLeft + (DarkWidth / 2), Bottom + 20, LabelSize, theme.Ink, SKTextAlign.Center);
        DrawLegend(pen, theme);
    }

    private (Panel Dark, Panel Lit) Panels(float top, float height, ChartAxis vertical, ChartTheme theme)
    {
        var dark = new Panel(new SKRect(PlotLeft, top, PlotLeft + DarkWidth, top + height), DarkAxis, vertical, theme, Font);
        var lit = new Panel(new SKRect(PlotLeft + DarkWidth + DarkGap, top, PlotRight, top + height), _model.Signal, vertical, theme, Font);
        lit.HideVerticalLabels();
        return (dark, lit);
    }

    private void DrawVariances(Pen pen, ChartTheme theme)
    {
        (Panel dark, Panel lit) = Panels(_plotTop, PlotHeight, _model.Variance, theme);
        lit.HideHorizontalLabels();
        foreach ((int index, PhotonTransferChannel channel) in _model.Channels.Index())
        {
            ChannelStyle style = ChannelStyle.Of(channel.Name, theme);
            foreach (PhotonTransferPoint point in channel.Points.Where(p => p.VarianceDn2 >= _model.Variance.Minimum))
            {
                double y = Panel.Position(_model.Variance, point.VarianceDn2);
                AddPoint(dark, lit, index, point, y, style);
            }
        }

        dark.Draw(pen.Canvas);
        lit.Draw(pen.Canvas);
        foreach (PhotonTransferChannel channel in _model.Channels)
        {
            ChannelStyle style = ChannelStyle.Of(channel.Name, theme);
            DrawModel(pen, dark, lit, channel, style);
            foreach (PhotonTransferPoint point in channel.Points.Where(p => p.VarianceDn2 < _model.Variance.Minimum))
            {
                float x = point.IsDark ? dark.Data.MidX : lit.Column(Math.Max(point.SignalDn, _model.Signal.Minimum));
                Arrow(pen, x, lit.Data.Bottom, upwards: false, style.Colour);
            }
        }
    }

    private void DrawModel(Pen pen, Panel dark, Panel lit, PhotonTransferChannel channel, ChannelStyle style)
    {
        if (channel.Model is not { } model || channel.Points.Count == 0)
        {
            return;
        }

        double last = Math.Max(channel.Points.Max(p => p.SignalDn), _model.Signal.Minimum * 2);
        (double from, double to) = (Math.Log(_model.Signal.Minimum), Math.Log(last));
        SKPoint[] line =
        [
            .. Enumerable.Range(0, ModelSteps + 1)
                .Select(i => Math.Exp(from + ((to - from) * i / ModelSteps)))
                .Select(signal => new SKPoint(lit.Column(signal), lit.Row(model.TemporalVarianceAt(signal)))),
        ];
        pen.Curve(line, style.Colour, LineWidth, style.Line, lit.Data);
        float row = dark.Row(model.TemporalVarianceAt(0));
        pen.Curve([new(dark.Data.Left, row), new(dark.Data.Right, row)], style.Colour, LineWidth, style.Line, dark.Data);
    }

    private void AddPoint(Panel dark, Panel lit, int channelIndex, PhotonTransferPoint point, double y, ChannelStyle style)
    {
        if (!point.IsDark && point.SignalDn < _model.Signal.Minimum)
        {
            return;
        }

        double x = point.IsDark ? (channelIndex + 1.0) / (_model.Channels.Count + 1.0) : Panel.Position(_model.Signal, point.SignalDn);
        MarkerShape shape = point.UsedInFit ? style.Filled : style.Hollow;
        (point.IsDark ? dark : lit).Plot.Add.Marker(x, y).MarkerStyle = ChartMarker.Of(shape, MarkerSize, style.Colour);
    }

    private void DrawResiduals(Pen pen, ChartTheme theme, PhotonTransferChannel channel, float top, bool isLast)
    {
        (Panel dark, Panel lit) = Panels(top, OneStrip, _model.Residual, theme);
        dark.HideVerticalCaption();
        ChannelStyle style = ChannelStyle.Of(channel.Name, theme);
        foreach (Panel panel in new[] { dark, lit })
        {
            if (!isLast || panel == dark)
            {
                panel.HideHorizontalLabels();
            }

            pen.Box(new SKRect(panel.Data.Left, panel.Row(2), panel.Data.Right, panel.Row(-2)), theme.Zone);
            pen.Line(panel.Data.Left, panel.Row(0), panel.Data.Right, panel.Row(0), theme.Quiet, 1);
        }

        foreach (PhotonTransferPoint point in channel.Points.Where(p => p.Residual is not null && Math.Abs(p.Residual.Value) <= _model.Residual.Maximum))
        {
            AddPoint(dark, lit, (_model.Channels.Count - 1) / 2, point, point.Residual!.Value, style);
        }

        dark.Draw(pen.Canvas);
        lit.Draw(pen.Canvas);
        DrawBeyond(pen, dark, lit, channel, style);
        pen.Text(channel.Name, lit.Data.Left + 8, lit.Data.Top + 16, 13.5f, style.Colour, SKTextAlign.Left, bold: true);
    }

    private void DrawBeyond(Pen pen, Panel dark, Panel lit, PhotonTransferChannel channel, ChannelStyle style)
    {
        foreach (PhotonTransferPoint point in channel.Points.Where(p => p.Residual is { } r && Math.Abs(r) > _model.Residual.Maximum))
        {
            float x = point.IsDark ? dark.Data.MidX : lit.Column(Math.Max(point.SignalDn, _model.Signal.Minimum));
            Arrow(pen, x, point.Residual > 0 ? lit.Data.Top : lit.Data.Bottom, point.Residual > 0, style.Colour);
        }
    }

    private static void Arrow(Pen pen, float x, float edge, bool upwards, SKColor colour)
    {
        float way = upwards ? 1 : -1;
        pen.Shape([new(x, edge + (way * 2)), new(x - 5, edge + (way * 11)), new(x + 5, edge + (way * 11))], null, colour);
    }

    private float DrawLegend(Pen pen, ChartTheme theme)
    {
        var items = new List<LegendItem>();
        foreach (PhotonTransferChannel channel in _model.Channels)
        {
            items.Add(new LegendItem($"{channel.Name}: gain {channel.Gain}", (p, x, y) => ChannelSign(p, ChannelStyle.Of(channel.Name, theme), x, y)));
        }

        ChannelStyle first = ChannelStyle.Of(_model.Channels.Count == 1 ? _model.Channels[0].Name : ChannelName.FirstGreen, theme);
        if (_model.ReasonsLeftOut.Count > 0)
        {
            items.Add(new LegendItem($"hollow: left out of the fit ({string.Join("; ", _model.ReasonsLeftOut)})", (p, x, y) => Sign(p, first.Hollow, first, x, y)));
        }

        if (_model.Channels.SelectMany(c => c.Points).Any(p => Math.Abs(p.Residual ?? 0) > _model.Residual.Maximum || p.VarianceDn2 < _model.Variance.Minimum))
        {
            items.Add(new LegendItem("beyond the scale", (p, x, y) => Arrow(p, x, y - 6, upwards: true, first.Colour)));
        }

        items.Add(new LegendItem("grey ground: two standard uncertainties", (p, x, y) => p.Shape([new(x - 14, y - 6), new(x + 14, y - 6), new(x + 14, y + 6), new(x - 14, y + 6)], theme.Zone, theme.Grid)));
        return new Legend(items).Draw(pen, LegendLeft, Bottom + AxisRoom, Width - Edge - LegendLeft, theme);
    }

    private static void ChannelSign(Pen pen, ChannelStyle style, float x, float y)
    {
        pen.Curve([new(x - 18, y), new(x + 18, y)], style.Colour, LineWidth, style.Line);
        Sign(pen, style.Filled, style, x, y);
    }

    private static void Sign(Pen pen, MarkerShape shape, ChannelStyle style, float x, float y) =>
        ChartMarker.Draw(pen.Canvas, ChartMarker.Of(shape, MarkerSize, style.Colour), x, y);
}
