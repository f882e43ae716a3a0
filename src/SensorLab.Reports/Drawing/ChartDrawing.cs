using SensorLab.Reports.Charts;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>A chart that can be drawn on any canvas; lengths are in pixels at the size of a screen.</summary>
internal abstract class ChartDrawing
{
    /// <summary>The width of a chart on a desk, on paper and as a file.</summary>
    public const float WideWidth = 960;

    /// <summary>The width of a chart's form for a phone.</summary>
    public const float NarrowWidth = 360;

    private const float TitleSize = 21;
    private const float BodySize = 12.5f;
    private const float SentenceSize = 15;
    private const int MostBodyLines = 2;

    private readonly ChartFont _font;
    private readonly bool _headed;

    /// <summary>Lays the chart's heading out.</summary>
    /// <param name="heading">Its words.</param>
    /// <param name="font">What they are set in.</param>
    /// <param name="headed">Whether the chart carries its own heading; a page sets it beside the chart.</param>
    /// <param name="narrow">Whether it is the form for a phone.</param>
    protected ChartDrawing(ChartHeading heading, ChartFont font, bool headed, bool narrow)
    {
        IsNarrow = narrow;
        Heading = heading;
        _font = font;
        _headed = headed;
        HeadingBottom = headed ? Measure(pen => DrawHeading(pen, ChartTheme.Light)) : 4;
    }

    /// <summary>Whether it is the form for a phone, as wide as <see cref="NarrowWidth"/>.</summary>
    public bool IsNarrow { get; }

    /// <summary>Its width.</summary>
    public float Width => IsNarrow ? NarrowWidth : WideWidth;

    /// <summary>Its words.</summary>
    public ChartHeading Heading { get; }

    /// <summary>The height that it needs.</summary>
    public abstract float Height { get; }

    /// <summary>What its words are set in.</summary>
    public ChartFont Font => _font;

    /// <summary>The empty edge around the chart.</summary>
    protected float Edge => IsNarrow ? 4 : 24;

    /// <summary>Where plots begin: right of the labels of their vertical axis.</summary>
    protected float PlotLeft => Edge + (IsNarrow ? 66 : 74);

    /// <summary>Where plots end: half a label of their horizontal axis stands beyond.</summary>
    protected float PlotRight => Width - Edge - (IsNarrow ? 14 : 0);

    /// <summary>Where legends begin: on a phone they take the whole width.</summary>
    protected float LegendLeft => IsNarrow ? Edge : PlotLeft;

    /// <summary>Where the heading ends and the chart may start.</summary>
    protected float HeadingBottom { get; }

    /// <summary>Draws the chart.</summary>
    /// <param name="canvas">Where to.</param>
    /// <param name="theme">In which colours.</param>
    public void Draw(SKCanvas canvas, ChartTheme theme)
    {
        var pen = new Pen(canvas, _font);
        pen.Box(SKRect.Create(Width, Height), theme.Page);
        if (_headed)
        {
            DrawHeading(pen, theme);
        }

        DrawChart(pen, theme);
    }

    /// <summary>Draws what stands below the heading.</summary>
    /// <param name="pen">What draws.</param>
    /// <param name="theme">In which colours.</param>
    protected abstract void DrawChart(Pen pen, ChartTheme theme);

    /// <summary>Says in the chart's place that there is nothing to draw.</summary>
    /// <param name="pen">What draws.</param>
    /// <param name="theme">In which colours.</param>
    /// <returns>Where the note ends.</returns>
    protected float DrawNote(Pen pen, ChartTheme theme)
    {
        SKRect box = SKRect.Create(Edge, HeadingBottom + 4, Width - (2 * Edge), 72);
        pen.Box(box, theme.Zone);
        pen.Text(IsNarrow ? "Nothing to draw: no such figures." : "Nothing to draw: the sensor profile holds no such figures for this ISO.", box.MidX, box.MidY + 5, SentenceSize, theme.Quiet, SKTextAlign.Center);
        return box.Bottom;
    }

    /// <summary>Where something ends that is drawn from the top, without drawing it anywhere.</summary>
    /// <param name="draw">Draws it and returns its bottom.</param>
    protected float Measure(Func<Pen, float> draw)
    {
        using var recorder = new SKPictureRecorder();
        return draw(new Pen(recorder.BeginRecording(SKRect.Create(Width, Width)), _font));
    }

    private float DrawHeading(Pen pen, ChartTheme theme)
    {
        float width = Width - (2 * Edge);
        float bottom = pen.Paragraph(Heading.Title, Edge, Edge - 6, width, TitleSize, theme.Ink, bold: true);
        foreach (string line in TextLines.Clip(TextLines.Wrap(Heading.Body, width, text => pen.Measure(text, BodySize)), MostBodyLines))
        {
            bottom = pen.Paragraph(line, Edge, bottom, width + BodySize, BodySize, theme.Quiet);
        }

        return pen.Paragraph(Heading.Sentence, Edge, bottom + 8, width, SentenceSize, theme.Ink) + 8;
    }
}
