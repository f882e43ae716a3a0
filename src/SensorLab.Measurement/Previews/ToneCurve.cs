namespace SensorLab.Measurement.Previews;

/// <summary>One channel's tone curve through measured points, in rising EV.</summary>
/// <remarks>ISO 14524's opto-electronic conversion function, of a plain field: points, and cubics through the nearest four between them.</remarks>
internal sealed class ToneCurve
{
    /// <summary>
    /// Standard uncertainty of a code: rounding to 8 bits, 1/√12, and as much again and more from the codec, whose first
    /// coefficient in steps of up to 11 errs by 11/8/√12.
    /// </summary>
    public const double CodeUncertainty = 0.5;

    /// <summary>Points nearer than this are one: two frames of a level, a metered frame beside a level.</summary>
    private const double OnePointEv = 0.04;

    private const int CubicPoints = 4;

    private ToneCurve(ToneNode[] nodes) => Nodes = nodes;

    /// <summary>The points, in rising EV.</summary>
    public IReadOnlyList<ToneNode> Nodes { get; }

    /// <summary>The curve through points, near ones averaged.</summary>
    /// <param name="points">One point or more, in any order.</param>
    public static ToneCurve Through(IEnumerable<ToneNode> points)
    {
        var nodes = new List<ToneNode>();
        var together = new List<ToneNode>();
        foreach (ToneNode point in points.OrderBy(p => p.Ev).ThenBy(p => p.Code))
        {
            if (together.Count > 0 && point.Ev - together[0].Ev > OnePointEv)
            {
                nodes.Add(Mean(together));
                together.Clear();
            }

            together.Add(point);
        }

        nodes.Add(Mean(together));
        return new ToneCurve([.. nodes]);
    }

    /// <summary>The code at an EV.</summary>
    /// <param name="ev">EV from middle grey.</param>
    /// <returns>Between the codes of the neighbouring points; null outside of the points.</returns>
    public double? CodeAt(double ev)
    {
        int upper = IndexFrom(ev);
        if (Nodes.Count < 2 || upper < 0 || ev < Nodes[0].Ev)
        {
            return null;
        }

        upper = Math.Max(1, upper);
        int count = Math.Min(CubicPoints, Nodes.Count);
        int first = Math.Clamp(upper - (count / 2), 0, Nodes.Count - count);
        double code = Lagrange([.. Nodes.Skip(first).Take(count)], ev);
        (double low, double high) = (Nodes[upper - 1].Code, Nodes[upper].Code);
        return Math.Clamp(code, Math.Min(low, high), Math.Max(low, high));
    }

    /// <summary>Codes per EV around an EV; null outside of the points.</summary>
    /// <param name="ev">EV from middle grey.</param>
    public double? SlopeAt(double ev)
    {
        int upper = IndexFrom(ev);
        if (Nodes.Count < 2 || upper < 0 || ev < Nodes[0].Ev)
        {
            return null;
        }

        upper = Math.Max(1, upper);
        return (Nodes[upper].Code - Nodes[upper - 1].Code) / (Nodes[upper].Ev - Nodes[upper - 1].Ev);
    }

    /// <summary>How far a point lies from the cubic through two neighbours on either side, in codes; null at the ends.</summary>
    /// <param name="index">The point.</param>
    public double? OffNeighbours(int index) => index < 2 || index > Nodes.Count - 3
        ? null
        : Nodes[index].Code - Lagrange([Nodes[index - 2], Nodes[index - 1], Nodes[index + 1], Nodes[index + 2]], Nodes[index].Ev);

    private int IndexFrom(double ev)
    {
        for (int i = 0; i < Nodes.Count; i++)
        {
            if (Nodes[i].Ev >= ev)
            {
                return i;
            }
        }

        return -1;
    }

    private static double Lagrange(ReadOnlySpan<ToneNode> nodes, double ev)
    {
        double sum = 0;
        for (int i = 0; i < nodes.Length; i++)
        {
            double weight = 1;
            for (int j = 0; j < nodes.Length; j++)
            {
                weight *= i == j ? 1 : (ev - nodes[j].Ev) / (nodes[i].Ev - nodes[j].Ev);
            }

            sum += weight * nodes[i].Code;
        }

        return sum;
    }

    private static ToneNode Mean(List<ToneNode> points) => new(points.Average(p => p.Ev), points.Average(p => p.Code));
}

/// <summary>A point of one channel's tone curve.</summary>
/// <param name="Ev">EV of green from middle grey.</param>
/// <param name="Code">Code, 0 to 255.</param>
internal readonly record struct ToneNode(double Ev, double Code);
