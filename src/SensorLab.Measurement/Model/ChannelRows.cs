using SensorLab.Law;
using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Model;

/// <summary>The rows of one channel in a round of an ISO's fit.</summary>
/// <param name="channel">What the channel's levels bring.</param>
/// <param name="index">Its index.</param>
/// <param name="at">The joint parameters so far, and by how much black lay higher in lit frames.</param>
/// <param name="isFirst">Whether they are none yet.</param>
/// <param name="isBent">Whether the bend is fitted.</param>
/// <param name="isShifted">Whether it is fitted by how much black lay higher in lit frames.</param>
/// <param name="fixedShare">Share of its deviation that the weight of what was fitted elsewhere goes by.</param>
internal sealed class ChannelRows(ChannelObservations channel, int index, double[] at, bool isFirst, bool isBent, bool isShifted, double fixedShare)
{
    /// <summary>The smallest deviation of what is known exactly, in its own unit: it only keeps the equations finite.</summary>
    private const double SmallestDeviation = 1e-9;

    private readonly ResponseCurve _response = new(at[JointModel.PlaceOf(index, NoiseParameter.BendPerDn)]);

    /// <summary>Black of the lit frames.</summary>
    private double LitBlackDn => this[NoiseParameter.BlackDn] + at[^1];

    private double this[NoiseParameter parameter] => at[Place(parameter)];

    /// <summary>Black and the lines' temporal variance, which were estimated before: the lit levels' variances, which light can spoil, do not move black.</summary>
    public IEnumerable<IsoRow> Known()
    {
        yield return Row(IsoRowKind.Black, NoiseParameter.BlackDn, channel.Black, fixedShare);
        yield return Row(IsoRowKind.RowLines, NoiseParameter.RowDn2, channel.Lines.RowDn2, 1);
        yield return Row(IsoRowKind.ColumnLines, NoiseParameter.ColumnDn2, channel.Lines.ColumnDn2, 1);
    }

    /// <summary>Temporal variance of pixels: I + K·s(S).</summary>
    public IEnumerable<IsoRow> Variances()
    {
        double gain = this[NoiseParameter.GainDnPerElectron];
        double intercept = this[NoiseParameter.InterceptDn2];
        var line = new PhotonTransfer(gain, intercept, 0, 0, 0, 0, 0, Converged: false);
        foreach (ObservedLevel level in channel.FitLevels)
        {
            PhotonTransferPoint point = channel.PointOf(level, LitBlackDn, _response);
            double moved = gain * gain * point.SignalVarianceDn2;
            double noise = ChannelObservations.RoundingDoubtDn4(level) + (isFirst
                ? 2 * Math.Pow(Math.Max(point.VarianceDn2, SmallestDeviation), 2) / point.DegreesOfFreedom
                : PhotonTransferEstimator.VarianceOfVariance(line, point with { SignalVarianceDn2 = 0 }));
            List<(int, double)> slopes = [(Place(NoiseParameter.InterceptDn2), 1), (Place(NoiseParameter.GainDnPerElectron), point.SignalDn)];
            if (!level.IsDark)
            {
                double signal = level.Channel.MeanDn - LitBlackDn;
                double slopeOfBlack = -gain * _response.ShotSlopeAt(signal);
                slopes.AddRange([(Place(NoiseParameter.BlackDn), slopeOfBlack), (at.Length - 1, isShifted ? slopeOfBlack : 0)]);
                if (isBent)
                {
                    slopes.Add((JointModel.PlaceOf(0, NoiseParameter.BendPerDn), gain * _response.ShotSlopeByBendDn2(signal)));
                }
            }

            double expected = intercept + (gain * point.SignalDn);
            yield return new IsoRow(IsoRowKind.Variance, index, level, point.VarianceDn2 - expected, noise + moved, level.IsDark ? noise + moved : noise, [.. slopes])
            {
                NoiseVariance = noise,
            };
        }

        if (channel.Codes is { } codes)
        {
            yield return Row(IsoRowKind.Intercept, NoiseParameter.InterceptDn2, codes.TemporalVarianceDn2 with { Value = codes.TemporalVarianceDn2.Value + channel.QuantisationDn2 }, fixedShare);
        }
    }

    /// <summary>Fixed pattern: D² + P²·r(S)² of pixels, rows and columns, each where its levels determine both.</summary>
    public IEnumerable<IsoRow> Patterns()
    {
        IReadOnlyList<PatternPart> parts = PatternPart.Of(channel);
        List<PatternPart> known = [];
        foreach (PatternPart part in parts)
        {
            IsoRow[] rows = [.. Pattern(part)];
            double[] signals = [.. rows.Select(r => r.Slopes[1].Slope), .. part == parts[0] && channel.Codes is not null ? [0.0] : Array.Empty<double>()];
            if (signals.Length > 1 && signals.Max() > signals.Min())
            {
                known.Add(part);
                foreach (IsoRow row in rows)
                {
                    yield return row;
                }
            }
        }

        if (channel.Codes is { } codes && known.Contains(parts[0]))
        {
            double sampling = isFirst ? 0 : known.Sum(p => p.Sampled(Parameter).Where(s => s.Parameter == p.Dsnu).Sum(s => 2 * s.Square * s.Square / s.Count));
            double own = PatternPart.Own(codes.PatternVarianceDn2.Variance, sampling);
            double expected = known.Sum(p => this[p.Dsnu]);
            yield return new IsoRow(IsoRowKind.DarkPattern, index, null, codes.PatternVarianceDn2.Value - expected, own, own, [.. known.Select(p => (Place(p.Dsnu), 1.0))]);
        }
    }

    private IEnumerable<IsoRow> Pattern(PatternPart part)
    {
        (ObservedLevel Level, Estimate Measured, double SignalDn, double Whole, double Own)[] levels = [.. channel.FitLevels
            .Select(l => (Level: l, Measured: part.Measured(l.Channel.FixedPatternParts!), SignalDn: _response.ResponsiveSignalOf(l.Channel.MeanDn - LitBlackDn)))
            .Where(l => l.Measured.StandardUncertainty > 0)
            .Select(l => (l.Level, l.Measured, l.SignalDn, part.VarianceDn4(l.Level, l.SignalDn, TemporalDn2(l.Level), Parameter)))
            .Select(l => (l.Level, l.Measured, l.SignalDn, l.Item4.Whole, l.Item4.Own))];
        double lost = levels.Length == 0 ? 1 : levels.Average(l => l.Measured.Variance / l.Whole);
        foreach ((ObservedLevel level, Estimate measured, double signal, double whole, double own) in levels)
        {
            double weighed = isFirst || part.IsOutlying(measured, signal, Parameter)
                ? measured.Variance
                : PatternPart.Own(lost * whole, whole - own);
            double expected = this[part.Dsnu] + (this[part.Prnu] * signal * signal);
            yield return new IsoRow(part.Kind, index, level, measured.Value - expected, weighed, weighed, [(Place(part.Dsnu), 1), (Place(part.Prnu), signal * signal)]);
        }
    }

    /// <summary>Temporal variance of a level's pixels in DN²: the line's where there is one, which is free of the level's own chance.</summary>
    private double TemporalDn2(ObservedLevel level)
    {
        double line = this[NoiseParameter.InterceptDn2] + (this[NoiseParameter.GainDnPerElectron] * channel.PointOf(level, LitBlackDn, _response).SignalDn);
        return line > 0 ? line : level.Channel.TemporalParts!.PixelDn2;
    }

    private IsoRow Row(IsoRowKind kind, NoiseParameter parameter, Estimate known, double share)
    {
        double deviation = Math.Max(known.StandardUncertainty * share, SmallestDeviation);
        return new IsoRow(kind, index, null, known.Value - this[parameter], deviation * deviation, known.Variance, [(Place(parameter), 1)]);
    }

    private double Parameter(NoiseParameter parameter) => this[parameter];

    private int Place(NoiseParameter parameter) => JointModel.PlaceOf(index, parameter);
}
