using SensorLab.Profiles;

namespace SensorLab.Measurement.Previews;

/// <summary>Finds where a tone curve reaches its highest or its lowest code.</summary>
/// <remarks>
/// The end lies between the last point that is short of the end code and the first that has it: that much is certain. Inside,
/// the parabola through the points before it is continued to the end code, or to its turning point where it turns before. The
/// straight continuation of the last two points is the other extreme: a third of their difference squared (an even spread to
/// either side), as much for half a code, what a cubic would add, and the codes' own uncertainty make the variance: a curve is
/// taken to bend no quicker than the bracket's steps can follow. A picture of 8 bits clips where
/// its code rounds to the highest; a shallow toe is continued to its foot.
/// </remarks>
internal static class CurveEndEstimator
{
    /// <summary>Points through which the parabola goes at the bright end, where a curve may bend quickly.</summary>
    private const int BrightPoints = 3;

    private const int CubicPoints = 4;

    /// <summary>At the dark end curves are shallow, and more points are needed against rounding.</summary>
    private const int DarkPoints = 5;

    /// <summary>A code within this of the end code is the end code, rounded.</summary>
    private const double HalfCode = 0.5;

    /// <summary>
    /// Within this of the end code noise folds over at the end, which moves the median by up to half a code: such points tell
    /// that the end is near, but not where.
    /// </summary>
    private const double FoldedCodes = 1;

    /// <summary>Light must change this much in EV without moving the code before that is called an end.</summary>
    private const double PlateauEv = 0.25;

    private const double HighestCode = CodeMedian.Codes - 1;

    /// <summary>Where a channel clips: its code rounds to the highest one.</summary>
    /// <param name="curve">Its tone curve.</param>
    /// <returns>A lower bound where the brightest point still rises.</returns>
    public static CurveEnd Bright(ToneCurve curve) => Of([.. curve.Nodes], HalfCode, BrightPoints);

    /// <summary>Where a channel's shadows close.</summary>
    /// <param name="curve">Its tone curve.</param>
    /// <returns>An upper bound where the darkest point still falls.</returns>
    public static CurveEnd Dark(ToneCurve curve)
    {
        CurveEnd mirrored = Of([.. curve.Nodes.Reverse().Select(Mirrored)], 0, DarkPoints);
        return new CurveEnd(Negated(mirrored.Ev), HighestCode - mirrored.EndCode);
    }

    private static CurveEnd Of(ToneNode[] rising, double shortOfEnd, int points)
    {
        if (EndCode(rising) is not { } end)
        {
            return new CurveEnd(Figure.LowerBound(rising[^1].Ev), null);
        }

        int ended = rising.Length - 1;
        while (ended > 0 && rising[ended - 1].Code >= end - HalfCode)
        {
            ended--;
        }

        return new CurveEnd(ended == 0 ? Figure.UpperBound(rising[0].Ev) : Between(rising, ended, end, end - shortOfEnd, points), end);
    }

    private static double? EndCode(ToneNode[] rising)
    {
        double last = rising[^1].Code;
        if (last >= HighestCode - HalfCode)
        {
            return HighestCode;
        }

        ToneNode[] level = [.. rising.Reverse().TakeWhile(n => Math.Abs(n.Code - last) < HalfCode)];
        bool isEnd = level.Length > 1 && level[0].Ev - level[^1].Ev >= PlateauEv;
        return isEnd ? level.Max(n => n.Code) : null;
    }

    private static Figure Between(ToneNode[] rising, int ended, double end, double target, int points)
    {
        int sure = ended;
        while (sure > 1 && rising[sure - 1].Code > end - FoldedCodes)
        {
            sure--;
        }

        double from = rising[sure - 1].Ev;
        double to = rising[ended].Ev;
        if (sure < 2 || Straight(rising[sure - 2], rising[sure - 1], target) is not { } straight)
        {
            return Figure.Estimate(0.5 * (from + to), (to - from) / Math.Sqrt(12), from, to);
        }

        // The first ended point may be half a code short of the end.
        double latest = to + Math.Min(HalfCode / straight.Slope, to - from);
        var parabola = Parabola.Through(rising.AsSpan(Math.Max(0, sure - points), Math.Min(points, sure)));
        (double reached, double slope) = parabola.Reaches(target, from, straight.Slope);
        double estimate = Math.Clamp(reached, from, latest);
        double spread = estimate - Math.Clamp(straight.Ev, from, latest);
        double byCodes = ToneCurve.CodeUncertainty * parabola.Amplification(estimate) / slope;
        double byRounding = HalfCode / slope;
        double byBend = points < CubicPoints && sure >= CubicPoints ? OffParabola(rising.AsSpan(sure - CubicPoints, CubicPoints), estimate) / slope : 0;
        double uncertainty = Math.Sqrt((((spread * spread) + (byRounding * byRounding)) / 3) + (byCodes * byCodes) + (byBend * byBend));
        double half = Figure.NormalFactor95 * uncertainty;
        double most = (latest - from) / Math.Sqrt(12);
        return Figure.Estimate(estimate, Math.Min(uncertainty, most), Math.Max(from, estimate - half), Math.Min(latest, estimate + half));
    }

    /// <summary>What a cubic through four points adds at an EV to the parabola through the last three, in codes (Newton's form).</summary>
    private static double OffParabola(ReadOnlySpan<ToneNode> nodes, double ev)
    {
        double difference = 0;
        for (int i = 0; i < nodes.Length; i++)
        {
            double product = 1;
            for (int j = 0; j < nodes.Length; j++)
            {
                product *= i == j ? 1 : nodes[i].Ev - nodes[j].Ev;
            }

            difference += nodes[i].Code / product;
        }

        foreach (ToneNode node in nodes[1..])
        {
            difference *= ev - node.Ev;
        }

        return Math.Abs(difference);
    }

    private static (double Ev, double Slope)? Straight(ToneNode before, ToneNode last, double target)
    {
        double slope = (last.Code - before.Code) / (last.Ev - before.Ev);
        return slope > 0 ? (last.Ev + ((target - last.Code) / slope), slope) : null;
    }

    private static ToneNode Mirrored(ToneNode node) => new(-node.Ev, HighestCode - node.Code);

    private static Figure Negated(Figure figure) => figure switch
    {
        { AtLeast: { } bound } => Figure.UpperBound(-bound),
        { AtMost: { } bound } => Figure.LowerBound(-bound),
        _ => Figure.Estimate(-figure.Value!.Value, figure.StandardUncertainty!.Value, -figure.Upper95!.Value, -figure.Lower95!.Value),
    };
}

/// <summary>Where a channel's tone curve reaches its end.</summary>
/// <param name="Ev">The figure, or a bound where the bracket ends first; the uncertainty of middle grey not included.</param>
/// <param name="EndCode">The code that is not passed; null where it was not reached.</param>
internal sealed record CurveEnd(Figure Ev, double? EndCode);
