namespace SensorLab.Profiles.Placement;

/// <summary>The published SNR curve between its points: straight in log2 SNR against EV, so monotone wherever the points are.</summary>
/// <remarks>
/// log2 SNR of shot and read noise bends by at most ln 2/8 = 0.087 an EV², so that a straight line over half an EV errs by
/// at most 0.0027 in log2, or 0.2 %. Neighbouring points come from one model and err alike: their uncertainties are
/// interpolated, not averaged down.
/// </remarks>
internal sealed class SnrInterpolation
{
    private readonly SnrPoint[] _points;

    public SnrInterpolation(IEnumerable<SnrPoint> curve) => _points = [.. curve.OrderBy(p => p.Ev)];

    /// <summary>log2 of total SNR and its slope per EV; null outside the curve and where a neighbouring point is no estimate.</summary>
    public (Figure Log2, double SlopePerEv)? At(double ev)
    {
        int upper = Math.Max(1, Array.FindIndex(_points, p => p.Ev >= ev));
        if (_points.Length < 2 || ev < _points[0].Ev || ev > _points[^1].Ev
            || Log2(_points[upper - 1].SnrTotal) is not { } left || Log2(_points[upper].SnrTotal) is not { } right)
        {
            return null;
        }

        double width = _points[upper].Ev - _points[upper - 1].Ev;
        double share = width > 0 ? (ev - _points[upper - 1].Ev) / width : 0;
        double slope = width > 0 ? (right.Value!.Value - left.Value!.Value) / width : 0;
        return (Between(left, right, share), slope);
    }

    /// <summary>2 to the power of a figure.</summary>
    public static Figure PowerOfTwo(Figure log2)
    {
        double value = Math.Pow(2, log2.Value!.Value);
        return Figure.Estimate(
            value,
            value * Math.Log(2) * log2.StandardUncertainty!.Value,
            Math.Min(value, Math.Pow(2, log2.Lower95!.Value)),
            Math.Max(value, Math.Pow(2, log2.Upper95!.Value)),
            log2.DegreesOfFreedom);
    }

    private static Figure? Log2(Figure? snr)
    {
        if (snr?.Value is not > 0)
        {
            return null;
        }

        double value = Math.Log2(snr.Value.Value);
        double uncertainty = snr.StandardUncertainty!.Value / (snr.Value.Value * Math.Log(2));
        double lower = snr.Lower95 > 0 ? Math.Log2(snr.Lower95.Value) : value - (Figure.NormalFactor95 * uncertainty);
        return Figure.Estimate(value, uncertainty, lower, Math.Log2(snr.Upper95!.Value), snr.DegreesOfFreedom);
    }

    private static Figure Between(Figure left, Figure right, double share)
    {
        double value = Mix(left.Value, right.Value);
        return Figure.Estimate(
            value,
            Mix(left.StandardUncertainty, right.StandardUncertainty),
            Math.Min(value, Mix(left.Lower95, right.Lower95)),
            Math.Max(value, Mix(left.Upper95, right.Upper95)),
            left.DegreesOfFreedom is { } a && right.DegreesOfFreedom is { } b ? Math.Min(a, b) : left.DegreesOfFreedom ?? right.DegreesOfFreedom);

        double Mix(double? from, double? to) => ((1 - share) * from!.Value) + (share * to!.Value);
    }
}
