using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>How far the rows of an ISO's fit may be off, and which of them are off together.</summary>
/// <param name="channels">What each channel's levels bring.</param>
/// <param name="rows">The rows of the last round.</param>
/// <param name="at">The parameters; NaN for what is not fitted.</param>
internal sealed class IsoErrors(ChannelObservations[] channels, IsoRows rows, double[] at)
{
    /// <summary>Parameters of a line.</summary>
    private const int LineTerms = 2;

    /// <summary>Rows that may scatter about their line for reasons that nobody knows.</summary>
    private static readonly IsoRowKind[] Scattering = [IsoRowKind.Variance, IsoRowKind.PixelPattern];

    /// <summary>Rows whose errors have parts of their own.</summary>
    private static readonly IsoRowKind[] Apart = [IsoRowKind.Black, IsoRowKind.LitShift, IsoRowKind.RowLines, IsoRowKind.ColumnLines];

    /// <summary>The covariance of the rows' errors in parts that rest on degrees of freedom of their own.</summary>
    public IEnumerable<RowErrors> Parts()
    {
        var own = new RowErrors(rows, double.PositiveInfinity);
        Dictionary<IsoRowKind, double[]> scatters = Scattering.ToDictionary(kind => kind, kind => channels.Select((_, c) => ScatterOf(c, kind)).ToArray());
        for (int row = 0; row < rows.Count; row++)
        {
            if (!Apart.Contains(rows[row].Kind))
            {
                own.Add(row, row, rows[row].OwnVariance * (scatters.TryGetValue(rows[row].Kind, out double[]? factors) ? factors[rows[row].Channel] : 1));
            }
        }

        for (int c = 0; c < channels.Length; c++)
        {
            ChannelObservations channel = channels[c];
            int black = rows.Of(c, IsoRowKind.Black).Single();
            if (double.IsFinite(channel.OwnBlack.DegreesOfFreedom))
            {
                yield return RowErrors.Single(rows, black, channel.OwnBlack.Variance, channel.OwnBlack.DegreesOfFreedom);
            }
            else
            {
                // What codes tell of black goes together with what they tell else.
                own.Add(black, black, channel.OwnBlack.Variance);
            }

            int rowLines = rows.Of(c, IsoRowKind.RowLines).Single();
            int columnLines = rows.Of(c, IsoRowKind.ColumnLines).Single();
            yield return RowErrors.Single(rows, rowLines, channel.Lines.RowDn2.Variance, channel.Lines.RowDn2.DegreesOfFreedom);
            yield return RowErrors.Single(rows, columnLines, channel.Lines.ColumnDn2.Variance, channel.Lines.ColumnDn2.DegreesOfFreedom);
            AddLevels(own, c);
            AddCodes(own, c, channel.Lines.RowDn2.Value >= channel.Lines.ColumnDn2.Value ? rowLines : columnLines);
        }

        yield return own;
        if (SharesLines)
        {
            yield return Together(IsoRowKind.Black, c => c.OwnBlack.StandardUncertainty * Math.Sqrt(c.Levels.First(l => l.IsDark).LinesShareOfMean));
            yield return Together(IsoRowKind.RowLines, c => c.Lines.RowDn2.StandardUncertainty * ShareOfLine(c.Lines.RowDn2.Value, c.Levels[0], l => l.PixelsOfRow));
            yield return Together(IsoRowKind.ColumnLines, c => c.Lines.ColumnDn2.StandardUncertainty * ShareOfLine(c.Lines.ColumnDn2.Value, c.Levels[0], l => l.PixelsOfColumn));
        }

        if (channels.Any(c => c.DriftOfBlackDn2 > 0))
        {
            yield return Drift();
        }
    }

    /// <summary>Whether every row and column holds all channels.</summary>
    private bool SharesLines => channels[0].Levels[0].SharesLines;

    /// <summary>Of a line's variance, what is the line's own and not its photosites'.</summary>
    private static double ShareOfLine(double lineDn2, ObservedLevel level, Func<ObservedLevel, double> pixelsOfLine) =>
        lineDn2 > 0 && level.Channel.TemporalParts is { } parts ? lineDn2 / (lineDn2 + (parts.PixelDn2 / pixelsOfLine(level))) : 0;

    /// <summary>What lines that run through all channels make of the channels' rows together, beside what each varies by.</summary>
    private RowErrors Together(IsoRowKind kind, Func<ChannelObservations, double> deviation)
    {
        var errors = new RowErrors(rows, double.PositiveInfinity);
        int[] places = [.. Enumerable.Range(0, channels.Length).Select(c => rows.Of(c, kind).Single())];
        double[] deviations = [.. channels.Select(deviation)];
        for (int i = 0; i < places.Length; i++)
        {
            for (int j = i + 1; j < places.Length; j++)
            {
                errors.Add(places[i], places[j], deviations[i] * deviations[j]);
            }
        }

        return errors;
    }

    /// <summary>By what factor a channel's variances, or its levels' pattern, scatter about their line more than they should; 1 where chance may do it.</summary>
    /// <param name="channel">Index of the channel.</param>
    /// <param name="kind">What is to lie on a line.</param>
    /// <remarks>What moves points off the line for reasons that nobody knows moves the line as much as noise of that size would.</remarks>
    public double ScatterOf(int channel, IsoRowKind kind)
    {
        int[] points = [.. rows.Of(channel, kind)];
        double chiSquare = points.Sum(i => rows[i].Misfit * rows[i].Misfit / rows[i].Weighed);
        return ChiSquareTest.ScatterFactor(chiSquare, points.Length - LineTerms);
    }

    /// <summary>What the sampling of patterns adds: all levels see the same pixels, rows and columns, which does not average out over levels.</summary>
    /// <param name="isFitted">Whether a place of the joint vector is fitted.</param>
    public IEnumerable<CovariancePart> Sampling(Func<int, bool> isFitted)
    {
        for (int c = 0; c < channels.Length; c++)
        {
            foreach (PatternPart part in PatternPart.Of(channels[c]))
            {
                foreach ((NoiseParameter parameter, double square, double count) in part.Sampled(p => Known(c, p)))
                {
                    int place = JointModel.PlaceOf(c, parameter);
                    if (isFitted(place) && square > 0)
                    {
                        Matrix<double> sampling = Matrix<double>.Build.Dense(at.Length, at.Length);
                        sampling[place, place] = 2 * square * square / count;
                        for (int other = c + 1; part.IsOfLines && SharesLines && other < channels.Length; other++)
                        {
                            int there = JointModel.PlaceOf(other, parameter);
                            double both = isFitted(there) ? 2 * Math.Max(0, Known(c, parameter)) * Math.Max(0, Known(other, parameter)) / count : 0;
                            (sampling[place, there], sampling[there, place]) = (both, both);
                        }

                        yield return new CovariancePart(sampling, count);
                    }
                }
            }
        }
    }

    /// <summary>What an excess of 1 adds to the rows, each over its deviation: the squared signal, and its part in an intercept that codes took from lit levels.</summary>
    /// <param name="channel">Index of the channel.</param>
    /// <param name="response">How recorded signal follows exposure.</param>
    public Vector<double> Excess(int channel, ResponseCurve response)
    {
        ChannelObservations own = channels[channel];
        Vector<double> excess = Vector<double>.Build.Dense(rows.Count);
        int[] points = [.. rows.Of(channel, IsoRowKind.Variance)];
        double[] signals = [.. points.Select(i => own.PointOf(rows[i].Level!, own.Black.Value, response).SignalDn)];
        for (int p = 0; p < points.Length; p++)
        {
            excess[points[p]] = signals[p] * signals[p] / Math.Sqrt(rows[points[p]].Weighed);
        }

        foreach (int row in rows.Of(channel, IsoRowKind.Intercept))
        {
            WeightedLine? line = WeightedLine.Fit([.. points.Select((i, p) => (signals[p], 0.0, 1 / rows[i].Weighed))]);
            double lifted = line is null ? 0 : signals.Select((s, p) => line.InterceptSensitivity(p) * s * s).Sum();
            excess[row] = own.LitShareOfIntercept * lifted / Math.Sqrt(rows[row].Weighed);
        }

        return excess;
    }

    /// <summary>A level's pattern against its temporal variance, of pixels and of lines.</summary>
    private void AddLevels(RowErrors errors, int channel)
    {
        ChannelObservations own = channels[channel];
        foreach (int row in rows.Of(channel, IsoRowKind.PixelPattern))
        {
            foreach (int point in rows.Of(channel, IsoRowKind.Variance).Where(p => ReferenceEquals(rows[p].Level, rows[row].Level)))
            {
                errors.Add(point, row, -rows[point].NoiseVariance / rows[row].Level!.Level.Frames);
            }

            AddPixelsOfLines(errors, row, IsoRowKind.RowPattern, rows[row].Level!.PixelsOfRow);
            AddPixelsOfLines(errors, row, IsoRowKind.ColumnPattern, rows[row].Level!.PixelsOfColumn);
        }

        if (own.Codes is null)
        {
            AddLines(errors, channel, IsoRowKind.RowLines, IsoRowKind.RowPattern, own.Lines.RowDn2.Variance);
            AddLines(errors, channel, IsoRowKind.ColumnLines, IsoRowKind.ColumnPattern, own.Lines.ColumnDn2.Variance);
        }
    }

    /// <summary>What a level's pixels have too much is taken off the variance of its lines' means.</summary>
    /// <remarks>Where several planes of a channel share a line, each plane's own part of it has fewer pixels: what goes together is then more than this.</remarks>
    private void AddPixelsOfLines(RowErrors errors, int pixels, IsoRowKind kind, double pixelsOfLine)
    {
        foreach (int lines in rows.Of(rows[pixels].Channel, kind).Where(p => ReferenceEquals(rows[p].Level, rows[pixels].Level)))
        {
            errors.Add(pixels, lines, -rows[pixels].OwnVariance / pixelsOfLine);
        }
    }

    /// <summary>A level has the share (variance of the estimate)/(its own variance) in the lines' estimate: its own cancels.</summary>
    private void AddLines(RowErrors errors, int channel, IsoRowKind lines, IsoRowKind pattern, double varianceDn4)
    {
        int line = rows.Of(channel, lines).Single();
        foreach (int row in rows.Of(channel, pattern))
        {
            errors.Add(line, row, -varianceDn4 / rows[row].Level!.Level.Frames);
        }
    }

    /// <summary>How what dark codes tell goes together.</summary>
    private void AddCodes(RowErrors errors, int channel, int lines)
    {
        if (channels[channel].Codes is not { } codes)
        {
            return;
        }

        int black = rows.Of(channel, IsoRowKind.Black).Single();
        double moved = channels[channel].LinesByCodesDn2;
        errors.Add(lines, lines, moved * moved);
        foreach (int intercept in rows.Of(channel, IsoRowKind.Intercept))
        {
            errors.Add(black, intercept, codes.Covariance.MeanAndTemporalDn3);
            errors.Add(intercept, lines, codes.TemporalVarianceDn2.StandardUncertainty * moved);
        }

        foreach (int pattern in rows.Of(channel, IsoRowKind.DarkPattern))
        {
            // What the codes' spread holds of rows and columns was taken off their pattern whole.
            errors.Add(lines, pattern, -channels[channel].Lines.MeasuredDn4);
            errors.Add(black, pattern, codes.Covariance.MeanAndPatternDn3);
            foreach (int intercept in rows.Of(channel, IsoRowKind.Intercept))
            {
                errors.Add(intercept, pattern, codes.Covariance.TemporalAndPatternDn4);
            }
        }
    }

    /// <summary>Black moves in all channels at once, between dark frames as between lit ones.</summary>
    private RowErrors Drift()
    {
        var drift = new RowErrors(rows, channels[0].Drift.DegreesOfFreedom);
        int[] blacks = [.. rows.Of(IsoRowKind.Black)];
        AddTogether(drift, blacks, row => Math.Sqrt(channels[rows[row].Channel].DriftOfBlackDn2));
        foreach (int shift in rows.Of(IsoRowKind.LitShift))
        {
            drift.Add(shift, shift, rows[shift].OwnVariance);
        }

        foreach (IGrouping<LevelRecord, int> level in rows.Of(IsoRowKind.Variance)
            .Where(i => !rows[i].Level!.IsDark)
            .GroupBy<int, LevelRecord>(i => rows[i].Level!.Level, ReferenceEqualityComparer.Instance))
        {
            double deviation = Math.Sqrt(channels[0].Drift.OfMean(level.Key.Frames));
            AddTogether(drift, [.. level], row => deviation * SlopeOfSignal(row));
        }

        return drift;
    }

    /// <summary>Rows that one cause moves together, each by its own amount.</summary>
    private static void AddTogether(RowErrors errors, int[] moved, Func<int, double> amount)
    {
        for (int i = 0; i < moved.Length; i++)
        {
            for (int j = i; j < moved.Length; j++)
            {
                errors.Add(moved[i], moved[j], amount(moved[i]) * amount(moved[j]));
            }
        }
    }

    /// <summary>By how much a level's expected variance moves with its recorded signal: against black, whose slope stands in the row.</summary>
    private double SlopeOfSignal(int row)
    {
        int black = JointModel.PlaceOf(rows[row].Channel, NoiseParameter.BlackDn);
        return -rows[row].Slopes.Where(s => s.Place == black).Sum(s => s.Slope);
    }

    private double Known(int channel, NoiseParameter parameter)
    {
        double value = at[JointModel.PlaceOf(channel, parameter)];
        return double.IsNaN(value) ? 0 : value;
    }
}
