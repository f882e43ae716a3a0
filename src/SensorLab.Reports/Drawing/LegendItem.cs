namespace SensorLab.Reports.Drawing;

/// <summary>One entry of a legend.</summary>
/// <param name="Text">What the sign means.</param>
/// <param name="Sign">Draws the sign around a centre.</param>
internal sealed record LegendItem(string Text, Action<Pen, float, float> Sign);
