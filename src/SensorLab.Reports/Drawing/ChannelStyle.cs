using ScottPlot;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>How a channel is told apart: by marker and line as well as by colour.</summary>
/// <param name="Colour">Its colour.</param>
/// <param name="Line">Its line.</param>
/// <param name="Filled">Its marker where the fit used the level.</param>
/// <param name="Hollow">Its marker where the fit left the level out.</param>
internal readonly record struct ChannelStyle(SKColor Colour, DashPattern Line, MarkerShape Filled, MarkerShape Hollow)
{
    /// <summary>The style of a channel.</summary>
    /// <param name="channel">R, G1, G2, B or Y.</param>
    /// <param name="theme">The page.</param>
    public static ChannelStyle Of(string channel, ChartTheme theme) => channel switch
    {
        "R" => new(theme.Warm, DashPattern.Dashed, MarkerShape.FilledSquare, MarkerShape.OpenSquare),
        "G1" => new(theme.Green, DashPattern.Solid, MarkerShape.FilledCircle, MarkerShape.OpenCircle),
        "G2" => new(theme.SecondGreen, DashPattern.Dotted, MarkerShape.FilledDiamond, MarkerShape.OpenDiamond),
        "B" => new(theme.Shadow, DashPattern.DashDot, MarkerShape.FilledTriangleDown, MarkerShape.OpenTriangleDown),
        _ => new(theme.Ink, DashPattern.Solid, MarkerShape.FilledCircle, MarkerShape.OpenCircle),
    };
}
