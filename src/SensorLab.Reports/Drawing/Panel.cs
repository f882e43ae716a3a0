using ScottPlot;
using ScottPlot.TickGenerators;
using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>One plot with fixed data edges, whose axes come from the chart's model.</summary>
internal sealed class Panel
{
    private const float TickLabelSize = 12.5f;
    private const float AxisLabelSize = 13.5f;

    // Centres digits, which have no descenders, on their tick.
    private const float TickLabelDrop = 2.5f;
    private const float LeftRoom = 74;
    private const float BottomRoom = 52;
    private const float OtherRoom = 12;
    private const double FurthestShare = 20;
    private const float LabelGap = 4;
    private const float CaptionBeyond = 14;

    private readonly SKRect _data;
    private readonly ChartAxis _horizontal;
    private readonly ChartAxis _vertical;

    /// <summary>Prepares a panel.</summary>
    /// <param name="data">The edges of its data area on the canvas.</param>
    /// <param name="horizontal">Its horizontal axis.</param>
    /// <param name="vertical">Its vertical axis.</param>
    /// <param name="theme">Its colours.</param>
    /// <param name="font">What its labels are set in.</param>
    public Panel(SKRect data, ChartAxis horizontal, ChartAxis vertical, ChartTheme theme, ChartFont font)
    {
        (_data, _horizontal, _vertical) = (data, horizontal, vertical);
        Plot.RenderManager.ClearCanvasBeforeEachRender = false;
        Plot.FigureBackground.Color = Colors.Transparent;
        Plot.DataBackground.Color = Colors.Transparent;
        Plot.Axes.SetLimits(Position(horizontal, horizontal.Minimum), Position(horizontal, horizontal.Maximum), Position(vertical, vertical.Minimum), Position(vertical, vertical.Maximum));
        Plot.Layout.Fixed(new PixelPadding(LeftRoom, OtherRoom, BottomRoom, OtherRoom));
        Plot.Grid.MajorLineColor = Colour(theme.Grid);
        Style(Plot.Axes.Bottom, Thinned(horizontal, data.Width, font), theme, font);
        Style(Plot.Axes.Left, vertical, theme, font);
        Plot.Axes.Bottom.Label.FontSize = CaptionSize(horizontal.Caption, data.Width + (2 * CaptionBeyond), font);
        Plot.Axes.Left.TickLabelStyle.OffsetY = TickLabelDrop;
        Plot.Axes.Right.IsVisible = false;
        Plot.Axes.Top.IsVisible = false;
    }

    /// <summary>What series are added to; in positions, see <see cref="Position"/>.</summary>
    public Plot Plot { get; } = new();

    /// <summary>The edges of the data area.</summary>
    public SKRect Data => _data;

    /// <summary>A value's position along an axis: itself, or its decimal logarithm.</summary>
    /// <param name="axis">The axis.</param>
    /// <param name="value">The value, above 0 on a logarithmic axis.</param>
    public static double Position(ChartAxis axis, double value) => axis.Scale == AxisScale.Logarithmic ? Math.Log10(value) : value;

    /// <summary>A colour as the plot knows it.</summary>
    /// <param name="colour">The colour.</param>
    public static Color Colour(SKColor colour) => new(colour.Red, colour.Green, colour.Blue, colour.Alpha);

    /// <summary>The column of a value on the canvas.</summary>
    /// <param name="value">In the unit of the horizontal axis.</param>
    public float Column(double value) => _data.Left + (Share(_horizontal, value) * _data.Width);

    /// <summary>The row of a value on the canvas.</summary>
    /// <param name="value">In the unit of the vertical axis.</param>
    public float Row(double value) => _data.Bottom - (Share(_vertical, value) * _data.Height);

    /// <summary>Leaves out the labels of the horizontal axis, where a panel below carries them.</summary>
    public void HideHorizontalLabels() => Hide(Plot.Axes.Bottom);

    /// <summary>Leaves out the labels of the vertical axis, where a panel to the left carries them.</summary>
    public void HideVerticalLabels() => Hide(Plot.Axes.Left);

    /// <summary>Leaves out the caption of the vertical axis, where one is set for several panels.</summary>
    public void HideVerticalCaption() => Plot.Axes.Left.Label.Text = string.Empty;

    private static void Hide(IAxis axis)
    {
        axis.Label.Text = string.Empty;
        axis.TickLabelStyle.IsVisible = false;
        axis.MajorTickStyle.Length = 0;
    }

    /// <summary>Draws the panel.</summary>
    /// <param name="canvas">Where to.</param>
    public void Draw(SKCanvas canvas)
    {
        var edges = new PixelRect(_data.Left - LeftRoom, _data.Right + OtherRoom, _data.Bottom + BottomRoom, _data.Top - OtherRoom);

        // A plot draws itself twice the first time, which would double every element of an SVG and darken what is translucent.
        using var nowhere = new SKNoDrawCanvas((int)_data.Right, (int)_data.Bottom);
        Plot.Render(nowhere, edges);
        Plot.Render(canvas, edges);
    }

    // A place on the canvas at most a few panels away: what a file's number lies beyond is not drawn, and no line has to be walked there.
    private static float Share(ChartAxis axis, double value)
    {
        double share = (Position(axis, value) - Position(axis, axis.Minimum)) / (Position(axis, axis.Maximum) - Position(axis, axis.Minimum));
        return (float)Math.Clamp(double.IsNaN(share) ? -FurthestShare : share, -FurthestShare, FurthestShare);
    }

    // Labels that would run into each other are left out at even steps from zero; their ticks stay.
    private static ChartAxis Thinned(ChartAxis axis, float width, ChartFont font)
    {
        using SKFont face = font.At(TickLabelSize, bold: false);
        AxisTick[] ticks = [.. axis.Ticks];
        (float Left, float Right)[] spans = [.. ticks.Select(t =>
        {
            float half = (face.MeasureText(t.Label) / 2) + (LabelGap / 2);
            float at = Share(axis, t.Value) * width;
            return (at - half, at + half);
        })];
        int zero = Math.Max(0, Array.FindIndex(ticks, t => t.Value == 0));
        int step = 1;
        while (step < ticks.Length && !IsApart([.. spans.Where((_, i) => (i - zero) % step == 0)]))
        {
            step++;
        }

        return axis with { Ticks = [.. ticks.Select((t, i) => (i - zero) % step == 0 ? t : t with { Label = string.Empty })] };
    }

    // A caption that is longer than its axis is set smaller.
    private static float CaptionSize(string caption, float room, ChartFont font)
    {
        using SKFont face = font.At(AxisLabelSize, bold: false);
        return Math.Min(AxisLabelSize, AxisLabelSize * room / Math.Max(1, face.MeasureText(caption)));
    }

    private static bool IsApart((float Left, float Right)[] spans) => spans.Zip(spans.Skip(1)).All(pair => pair.First.Right <= pair.Second.Left);

    private static void Style(IAxis axis, ChartAxis model, ChartTheme theme, ChartFont font)
    {
        var ticks = new NumericManual();
        foreach (AxisTick tick in model.Ticks)
        {
            ticks.AddMajor(Position(model, tick.Value), tick.Label);
        }

        axis.TickGenerator = ticks;
        axis.TickLabelStyle.FontName = font.Family;
        axis.TickLabelStyle.FontSize = TickLabelSize;
        axis.TickLabelStyle.ForeColor = Colour(theme.Ink);
        axis.MajorTickStyle.Color = Colour(theme.Ink);
        axis.FrameLineStyle.Color = Colour(theme.Quiet);
        axis.Label.Text = model.Caption;
        axis.Label.FontName = font.Family;
        axis.Label.FontSize = AxisLabelSize;
        axis.Label.Bold = false;
        axis.Label.ForeColor = Colour(theme.Ink);
    }
}
