using ScottPlot;
using SensorLab.Profiles;
using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>How a channel is told apart: by marker and line as well as by colour.</summary>
/// <param name="Colour">Its colour.</param>
/// <param name="Line">Its line.</param>
/// <param name="Filled">Its marker where the fit used the level.</param>
/// <param name="Hollow">Its marker where the fit left the level out.</param>
internal readonly record struct ChannelStyle(SKColor Colour, DashPattern Line, MarkerShape Filled, MarkerShape Hollow)
{
    /// <summary>The style of a channel, or of another series.</summary>
    /// <param name="channel">R, G1, G2, B or Y; "1" to "5" for series that are no channels; anything else is drawn in ink.</param>
    /// <param name="theme">The page.</param>
    public static ChannelStyle Of(string channel, ChartTheme theme) => channel switch
    {
        ChannelName.Red => new(theme.Warm, DashPattern.Dashed, MarkerShape.FilledSquare, MarkerShape.OpenSquare),
        ChannelName.FirstGreen => new(theme.Green, DashPattern.Solid, MarkerShape.FilledCircle, MarkerShape.OpenCircle),
        ChannelName.SecondGreen => new(theme.SecondGreen, DashPattern.Dotted, MarkerShape.FilledDiamond, MarkerShape.OpenDiamond),
        ChannelName.Blue => new(theme.Shadow, DashPattern.DashDot, MarkerShape.FilledTriangleDown, MarkerShape.OpenTriangleDown),
        "1" => new(theme.Shadow, DashPattern.Solid, MarkerShape.FilledCircle, MarkerShape.OpenCircle),
        "2" => new(theme.Warm, DashPattern.Dashed, MarkerShape.FilledSquare, MarkerShape.OpenSquare),
        "3" => new(theme.Green, DashPattern.DashDot, MarkerShape.FilledDiamond, MarkerShape.OpenDiamond),
        "4" => new(theme.SecondGreen, DashPattern.Dotted, MarkerShape.FilledTriangleUp, MarkerShape.OpenTriangleUp),
        "5" => new(theme.Quiet, DashPattern.Dashed, MarkerShape.FilledTriangleDown, MarkerShape.OpenTriangleDown),
        _ => new(theme.Ink, DashPattern.Solid, MarkerShape.FilledCircle, MarkerShape.OpenCircle),
    };
}
