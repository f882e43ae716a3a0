using SkiaSharp;

namespace SensorLab.Reports.Drawing;

/// <summary>Breaks a line into strokes.</summary>
/// <remarks>The SVG canvas warns on standard error for every dash effect of its own, so the strokes are laid out here.</remarks>
internal static class DashedPath
{
    /// <summary>The strokes of a line.</summary>
    /// <param name="points">The line's corners.</param>
    /// <param name="pattern">How it is broken.</param>
    /// <returns>A path that the caller disposes of.</returns>
    public static SKPath Of(IReadOnlyList<SKPoint> points, DashPattern pattern)
    {
        var path = new SKPath();
        if (pattern.Lengths.Length == 0)
        {
            path.AddPoly([.. points], close: false);
            return path;
        }

        int part = 0;
        float left = pattern.Lengths[0];
        for (int i = 1; i < points.Count; i++)
        {
            (SKPoint from, SKPoint to) = (points[i - 1], points[i]);
            float length = SKPoint.Distance(from, to);
            for (float done = 0; done < length;)
            {
                float step = Math.Min(left, length - done);
                if (part % 2 == 0)
                {
                    path.MoveTo(Along(from, to, done / length));
                    path.LineTo(Along(from, to, (done + step) / length));
                }

                done += step;
                left -= step;
                if (left <= 0)
                {
                    part = (part + 1) % pattern.Lengths.Length;
                    left = pattern.Lengths[part];
                }
            }
        }

        return path;
    }

    private static SKPoint Along(SKPoint from, SKPoint to, float share) =>
        new(from.X + ((to.X - from.X) * share), from.Y + ((to.Y - from.Y) * share));
}
