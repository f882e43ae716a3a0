using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Levels;
using SensorLab.Measurement.Response;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Model;

/// <summary>One round of an ISO's fit: every observation as a row, linear about the parameters so far and divided by its deviation, with the errors of all rows.</summary>
internal sealed class IsoEquations
{
    /// <summary>Points from which a channel's variances tell a bend by themselves: one more than a parabola has terms.</summary>
    private const int FewestPointsOfBend = 4;

    private readonly List<IsoRow> _rows = [];
    private readonly Dictionary<int, int> _columns = [];
    private readonly ChannelObservations[] _channels;

    private IsoEquations(ChannelObservations[] channels)
    {
        _channels = channels;
        Design = null!;
        Misfits = null!;
    }

    /// <summary>Observations × fitted parameters, each row over its deviation.</summary>
    public Matrix<double> Design { get; private set; }

    /// <summary>Observed less expected, each over its deviation.</summary>
    public Vector<double> Misfits { get; private set; }

    /// <summary>Whether a channel's levels determine a line.</summary>
    /// <param name="channel">The channel.</param>
    public static bool HasLine(ChannelObservations channel)
    {
        double[] signals = [.. channel.FitLevels.Select(l => SignalOf(l, channel.Black.Value)), .. channel.Codes is null ? [] : new[] { 0.0 }];
        return channel.FitLevels.Any(l => !l.IsDark) && signals.Length > 1 && signals.Max() > signals.Min();
    }

    /// <summary>Writes the rows down.</summary>
    /// <param name="channels">What each channel's levels bring.</param>
    /// <param name="hasLine">Which channels have a photon-transfer line.</param>
    /// <param name="bend">What is known of the bend; null for a straight response.</param>
    /// <param name="at">The parameters so far.</param>
    /// <param name="isFirst">Whether they are none yet: weights are then the observations' own.</param>
    /// <param name="withPatterns">Whether fixed patterns are fitted.</param>
    /// <param name="fixedShare">Share of its deviation that the weight of what was fitted elsewhere goes by.</param>
    public static IsoEquations At(ChannelObservations[] channels, bool[] hasLine, BendKnowledge? bend, double[] at, bool isFirst, bool withPatterns, double fixedShare)
    {
        var equations = new IsoEquations(channels);
        for (int c = 0; c < channels.Length; c++)
        {
            var rows = new ChannelRows(channels[c], c, at, isFirst, bend is not null, fixedShare);
            equations._rows.AddRange(rows.Known());
            equations._rows.AddRange(hasLine[c] ? rows.Variances() : []);
            equations._rows.AddRange(withPatterns ? rows.Patterns() : []);
        }

        int place = JointModel.PlaceOf(0, NoiseParameter.BendPerDn);
        if (bend is { Known: { } known } knowledge)
        {
            double deviation = known.StandardUncertainty * (knowledge.VariancesJoin ? 1 : fixedShare);
            equations._rows.Add(new IsoRow(IsoRowKind.Bend, 0, null, known.Value - at[place], deviation * deviation, known.Variance, [(place, 1)]));
        }

        equations.Arrange(bend is { Known: null } && !equations._rows.Where(r => r.Kind == IsoRowKind.Variance).GroupBy(r => r.Channel).Any(g => g.Count() >= FewestPointsOfBend));
        return equations;
    }

    /// <summary>The column of a parameter; −1 where it is not fitted.</summary>
    /// <param name="place">Its place in the joint vector.</param>
    public int ColumnOf(int place) => _columns.GetValueOrDefault(IsBend(place) ? JointModel.PlaceOf(0, NoiseParameter.BendPerDn) : place, -1);

    /// <summary>Squared misfits of a channel's variances over their variances, and how many there are.</summary>
    /// <param name="channel">Index of the channel.</param>
    public (double ChiSquare, int Points) LineMisfit(int channel)
    {
        double[] misfits = [.. Indices(channel, IsoRowKind.Variance).Select(i => Misfits[i])];
        return (misfits.Sum(m => m * m), misfits.Length + (_channels[channel].Codes is null ? 0 : 1));
    }

    /// <summary>What an excess of 1 adds to the rows, each over its deviation: the squared signal, and its part in an intercept that codes took from lit levels.</summary>
    /// <param name="channel">Index of the channel.</param>
    /// <param name="response">How recorded signal follows exposure.</param>
    public Vector<double> ExcessOf(int channel, ResponseCurve response)
    {
        ChannelObservations own = _channels[channel];
        Vector<double> excess = Vector<double>.Build.Dense(_rows.Count);
        int[] points = [.. Indices(channel, IsoRowKind.Variance)];
        double[] signals = [.. points.Select(i => own.PointOf(_rows[i].Level!, own.Black.Value, response).SignalDn)];
        for (int p = 0; p < points.Length; p++)
        {
            excess[points[p]] = signals[p] * signals[p] / Math.Sqrt(_rows[points[p]].Weighed);
        }

        foreach (int row in Indices(channel, IsoRowKind.Intercept))
        {
            WeightedLine? line = WeightedLine.Fit([.. points.Select((i, p) => (signals[p], 0.0, 1 / _rows[i].Weighed))]);
            double lifted = line is null ? 0 : signals.Select((s, p) => line.InterceptSensitivity(p) * s * s).Sum();
            excess[row] = own.LitShareOfIntercept * lifted / Math.Sqrt(_rows[row].Weighed);
        }

        return excess;
    }

    /// <summary>The covariance of the rows' errors, each over its deviation, in parts that rest on degrees of freedom of their own.</summary>
    /// <param name="at">The parameters.</param>
    public IEnumerable<RowErrors> Errors(double[] at)
    {
        var own = new RowErrors(_rows, double.PositiveInfinity);
        for (int c = 0; c < _channels.Length; c++)
        {
            ChannelObservations channel = _channels[c];
            foreach (int row in Indices(c))
            {
                if (_rows[row].Kind is not (IsoRowKind.Black or IsoRowKind.RowLines or IsoRowKind.ColumnLines))
                {
                    own.Add(row, row, _rows[row].OwnVariance);
                }
            }

            int black = Indices(c, IsoRowKind.Black).Single();
            double unshared = Math.Max(0, channel.Black.Variance - channel.DriftOfBlackDn2);
            if (double.IsFinite(channel.Black.DegreesOfFreedom) && channel.DriftOfBlackDn2 == 0)
            {
                yield return Single(black, unshared, channel.Black.DegreesOfFreedom);
            }
            else
            {
                own.Add(black, black, unshared);
            }

            int rowLines = Indices(c, IsoRowKind.RowLines).Single();
            int columnLines = Indices(c, IsoRowKind.ColumnLines).Single();
            yield return Single(rowLines, channel.Lines.RowDn2.Variance, channel.Lines.RowDn2.DegreesOfFreedom);
            yield return Single(columnLines, channel.Lines.ColumnDn2.Variance, channel.Lines.ColumnDn2.DegreesOfFreedom);
            AddLevels(own, c);
            AddCodes(own, c, channel.Lines.RowDn2.Value >= channel.Lines.ColumnDn2.Value ? rowLines : columnLines);
        }

        yield return own;
        if (_channels[0].Drift.FrameDn2 > 0)
        {
            var drift = new RowErrors(_rows, _channels[0].Drift.DegreesOfFreedom);
            AddDrift(drift, at);
            yield return drift;
        }
    }

    /// <summary>What the sampling of patterns adds: all levels see the same pixels, rows and columns, which does not average out over levels.</summary>
    /// <param name="at">The parameters.</param>
    public IEnumerable<CovariancePart> Sampling(double[] at)
    {
        for (int c = 0; c < _channels.Length; c++)
        {
            foreach (PatternPart part in PatternPart.Of(_channels[c]))
            {
                foreach ((NoiseParameter parameter, double square, double count) in part.Sampled(p => Known(at[JointModel.PlaceOf(c, p)])))
                {
                    int place = JointModel.PlaceOf(c, parameter);
                    if (ColumnOf(place) >= 0 && square > 0)
                    {
                        Matrix<double> sampling = Matrix<double>.Build.Dense(at.Length, at.Length);
                        sampling[place, place] = 2 * square * square / count;
                        yield return new CovariancePart(sampling, count);
                    }
                }
            }
        }
    }

    private static double Known(double value) => double.IsNaN(value) ? 0 : value;

    private static double SignalOf(ChannelLevel level, double blackDn) => level.IsDark ? level.DarkSignalDn.Value : level.Channel.MeanDn - blackDn;

    private static bool IsBend(int place) => place % NoiseModel.Size == (int)NoiseParameter.BendPerDn;

    private void Arrange(bool isBendOpen)
    {
        // Without a gain yet, a first round knows no slope of the bend.
        foreach ((int place, _) in _rows.SelectMany(r => r.Slopes).Where(s => s.Slope != 0 && !(isBendOpen && IsBend(s.Place))))
        {
            _columns.TryAdd(place, _columns.Count);
        }

        Design = Matrix<double>.Build.Dense(_rows.Count, _columns.Count);
        Misfits = Vector<double>.Build.Dense(_rows.Count);
        for (int i = 0; i < _rows.Count; i++)
        {
            double deviation = Math.Sqrt(_rows[i].Weighed);
            Misfits[i] = _rows[i].Misfit / deviation;
            foreach ((int place, double slope) in _rows[i].Slopes)
            {
                if (_columns.TryGetValue(place, out int column))
                {
                    Design[i, column] = slope / deviation;
                }
            }
        }
    }

    private RowErrors Single(int row, double variance, double degreesOfFreedom)
    {
        var errors = new RowErrors(_rows, degreesOfFreedom);
        errors.Add(row, row, variance);
        return errors;
    }

    /// <summary>A level's pattern against its temporal variance, of pixels and of lines.</summary>
    private void AddLevels(RowErrors errors, int channel)
    {
        ChannelObservations own = _channels[channel];
        int[] points = [.. Indices(channel, IsoRowKind.Variance)];
        foreach (int row in Indices(channel, IsoRowKind.PixelPattern))
        {
            foreach (int point in points.Where(p => ReferenceEquals(_rows[p].Level, _rows[row].Level)))
            {
                errors.Add(point, row, -_rows[point].NoiseVariance / _rows[row].Level!.Level.Frames);
            }
        }

        if (own.Codes is null)
        {
            AddLines(errors, channel, IsoRowKind.RowLines, IsoRowKind.RowPattern, own.Lines.RowDn2.Variance);
            AddLines(errors, channel, IsoRowKind.ColumnLines, IsoRowKind.ColumnPattern, own.Lines.ColumnDn2.Variance);
        }
    }

    /// <summary>A level has the share (variance of the estimate)/(its own variance) in the lines' estimate: its own cancels.</summary>
    private void AddLines(RowErrors errors, int channel, IsoRowKind lines, IsoRowKind pattern, double varianceDn4)
    {
        int line = Indices(channel, lines).Single();
        foreach (int row in Indices(channel, pattern))
        {
            errors.Add(line, row, -varianceDn4 / _rows[row].Level!.Level.Frames);
        }
    }

    /// <summary>How what dark codes tell goes together.</summary>
    private void AddCodes(RowErrors errors, int channel, int lines)
    {
        if (_channels[channel].Codes is not { } codes)
        {
            return;
        }

        int black = Indices(channel, IsoRowKind.Black).Single();
        int[] intercepts = [.. Indices(channel, IsoRowKind.Intercept)];
        int[] patterns = [.. Indices(channel, IsoRowKind.DarkPattern)];
        double moved = _channels[channel].LinesByCodesDn2;
        errors.Add(lines, lines, moved * moved);
        foreach (int intercept in intercepts)
        {
            errors.Add(black, intercept, codes.Covariance.MeanAndTemporalDn3);
            errors.Add(intercept, lines, codes.TemporalVarianceDn2.StandardUncertainty * moved);
        }

        foreach (int pattern in patterns)
        {
            // What the codes' spread holds of rows and columns was taken off their pattern whole.
            errors.Add(lines, pattern, -_channels[channel].Lines.MeasuredDn4);
            errors.Add(black, pattern, codes.Covariance.MeanAndPatternDn3);
            foreach (int intercept in intercepts)
            {
                errors.Add(intercept, pattern, codes.Covariance.TemporalAndPatternDn4);
            }
        }
    }

    /// <summary>Black moves in all channels at once, between dark frames as between lit ones.</summary>
    private void AddDrift(RowErrors errors, double[] at)
    {
        int[] blacks = [.. Enumerable.Range(0, _rows.Count).Where(i => _rows[i].Kind == IsoRowKind.Black)];
        foreach (int first in blacks)
        {
            foreach (int second in blacks.Where(b => b >= first))
            {
                errors.Add(first, second, Math.Sqrt(_channels[_rows[first].Channel].DriftOfBlackDn2 * _channels[_rows[second].Channel].DriftOfBlackDn2));
            }
        }

        foreach (IGrouping<object?, int> level in Enumerable.Range(0, _rows.Count)
            .Where(i => _rows[i] is { Kind: IsoRowKind.Variance, Level.IsDark: false })
            .GroupBy(object? (i) => _rows[i].Level!.Level, ReferenceEqualityComparer.Instance))
        {
            double drift = _channels[0].Drift.OfMean(((LevelRecord)level.Key!).Frames);
            foreach (int first in level)
            {
                foreach (int second in level.Where(s => s >= first))
                {
                    errors.Add(first, second, SlopeOfSignal(first, at) * SlopeOfSignal(second, at) * drift);
                }
            }
        }
    }

    private double SlopeOfSignal(int row, double[] at) => Known(at[JointModel.PlaceOf(_rows[row].Channel, NoiseParameter.GainDnPerElectron)]);

    private IEnumerable<int> Indices(int channel) => Enumerable.Range(0, _rows.Count).Where(i => _rows[i].Channel == channel);

    private IEnumerable<int> Indices(int channel, IsoRowKind kind) => Enumerable.Range(0, _rows.Count).Where(i => _rows[i].Channel == channel && _rows[i].Kind == kind);
}
