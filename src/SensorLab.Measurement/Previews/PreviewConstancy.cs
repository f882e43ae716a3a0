namespace SensorLab.Measurement.Previews;

/// <summary>Tells a look with one curve from a preview that is bent anew for every frame.</summary>
/// <remarks>
/// Two signs: frames of one level whose previews differ by more than their light does, and points that lie off the smooth
/// curve of their neighbours. A body that bends the curve by the light alone, alike for alike frames, shows neither on a plain
/// field: that it does not is an assumption of the profile.
/// </remarks>
internal static class PreviewConstancy
{
    /// <summary>Codes that a curve may be off: six standard uncertainties of a code, four of a difference; a twentieth of a stop.</summary>
    private const double ToleratedCodes = 3;

    /// <summary>Pairs that must disagree: one alone may be a bird before the wall.</summary>
    private const int LeastPairs = 2;

    /// <summary>Inner points from which on their scatter says something.</summary>
    private const int LeastPoints = 5;

    /// <summary>Distance in codes from the ends of the curve within which it stands still.</summary>
    private const double NearEnd = 8;

    /// <summary>The size of the change from frame to frame.</summary>
    /// <param name="points">The previews of one look.</param>
    /// <param name="curve">Green's curve through them.</param>
    /// <returns>Root mean square in EV; null where one curve holds for all.</returns>
    public static double? ChangeEv(IReadOnlyList<PreviewPoint> points, ToneCurve curve)
    {
        double[] pairs = [.. Pairs(points, curve)];
        if (pairs.Count(p => Math.Abs(p) > ToleratedCodes) >= LeastPairs)
        {
            return Rms(pairs) / (Math.Sqrt(2) * TypicalSlope(curve));
        }

        double[] scatter = [.. Scatter(curve).Select(Math.Abs).Order()];
        return scatter.Length >= LeastPoints && scatter[scatter.Length / 2] > ToleratedCodes
            ? Rms(scatter) / TypicalSlope(curve)
            : null;
    }

    /// <summary>Differences of two previews of a level in codes, that of their light taken out.</summary>
    private static IEnumerable<double> Pairs(IReadOnlyList<PreviewPoint> points, ToneCurve curve)
    {
        foreach (PreviewPoint[] level in points.GroupBy(p => p.Level).Select(g => g.ToArray()).Where(g => g.Length > 1))
        {
            if (level.All(p => IsInside(p.G, curve)))
            {
                for (int i = 1; i < level.Length; i++)
                {
                    yield return level[i].G - level[0].G - ((curve.SlopeAt(level[0].Ev) ?? 0) * (level[i].Ev - level[0].Ev));
                }
            }
        }
    }

    private static IEnumerable<double> Scatter(ToneCurve curve)
    {
        for (int i = 2; i < curve.Nodes.Count - 2; i++)
        {
            if (Enumerable.Range(i - 2, 5).All(k => IsInside(curve.Nodes[k].Code, curve)) && curve.OffNeighbours(i) is { } off)
            {
                yield return off;
            }
        }
    }

    private static bool IsInside(double code, ToneCurve curve) =>
        code > curve.Nodes.Min(n => n.Code) + NearEnd && code < curve.Nodes.Max(n => n.Code) - NearEnd;

    // Codes per EV where the curve is steep: from a quarter to three quarters of its codes.
    private static double TypicalSlope(ToneCurve curve)
    {
        double low = curve.Nodes.Min(n => n.Code);
        double range = curve.Nodes.Max(n => n.Code) - low;
        ToneNode[] inner = [.. curve.Nodes.Where(n => n.Code > low + (0.2 * range) && n.Code < low + (0.8 * range))];
        double slope = inner.Length > 1 ? Math.Abs(inner[^1].Code - inner[0].Code) / (inner[^1].Ev - inner[0].Ev) : 0;
        return Math.Max(slope, 1);
    }

    private static double Rms(double[] values) => Math.Sqrt(values.Average(v => v * v));
}
