namespace SensorLab.Reports.Drawing;

/// <summary>A legend that flows over as many lines as it needs.</summary>
/// <param name="items">Its entries in order.</param>
internal sealed class Legend(IReadOnlyList<LegendItem> items)
{
    private const float TextSize = 13;
    private const float SignWidth = 40;
    private const float LineHeight = 22;
    private const float Gap = 22;

    /// <summary>Draws the legend.</summary>
    /// <param name="pen">What draws.</param>
    /// <param name="left">Its left edge.</param>
    /// <param name="top">Its top.</param>
    /// <param name="width">Width to keep within.</param>
    /// <param name="theme">Its colours.</param>
    /// <returns>Its bottom.</returns>
    public float Draw(Pen pen, float left, float top, float width, ChartTheme theme)
    {
        float x = left;
        float y = top;
        foreach (LegendItem item in items)
        {
            IReadOnlyList<string> lines = TextLines.Wrap(item.Text, width - SignWidth, words => pen.Measure(words, TextSize));
            float wide = SignWidth + lines.Max(line => pen.Measure(line, TextSize));
            if (x > left && x + wide > left + width)
            {
                (x, y) = (left, y + LineHeight);
            }

            item.Sign(pen, x + (SignWidth / 2) - 4, y + (LineHeight / 2));
            foreach ((int index, string line) in lines.Index())
            {
                pen.Text(line, x + SignWidth, y + (index * LineHeight) + (LineHeight / 2) + (TextSize * 0.36f), TextSize, theme.Ink);
            }

            x += wide + Gap;
            y += (lines.Count - 1) * LineHeight;
        }

        return y + LineHeight;
    }
}
