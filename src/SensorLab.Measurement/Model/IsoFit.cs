using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Response;

namespace SensorLab.Measurement.Model;

/// <summary>The one fit of an ISO: all channels' variances, patterns, blacks and lines in one weighted least squares, with one covariance.</summary>
/// <remarks>
/// <para>
/// EMVA 1288 R4 Linear, photon transfer and spatial non-uniformity. Of channel c and level l, S the signal above black,
/// s(S) and r(S) the shot and the responsive signal of the <see cref="ResponseCurve"/> with the one bend of all channels:
/// temporal variance I_c + K_c·s(S), pattern of pixels, rows and columns each D² + P²·r(S)²; black and the lines' temporal
/// variances are observations of their own, and so is what is known of the bend from signals. Where black drifts, one
/// parameter more, the last, is by how much it lay higher in all lit frames: 0, give or take what dark frames drift by.
/// </para>
/// <para>
/// Weights come from the fitted model and not from the observations, which makes the fit of χ² distributed variances the
/// maximum-likelihood one. They take observations for independent; the covariance does not: with A the fit's linear answer
/// to its observations and Σ their covariance it is A·Σ·Aᵀ, part by part (noise, drift of black, lines, sampling of
/// patterns), so that every figure knows what it rests on. A level's pattern is what is left when its temporal variance
/// over the number of frames is taken off: what one has too much the other has too little. That is part of Σ and not of
/// the weights, or dust on the target would move the gain.
/// </para>
/// </remarks>
internal sealed class IsoFit
{
    private const int MostRounds = 40;

    /// <summary>Rounds after which steps are halved: weights that follow the fit may throw it to and fro between two lines that points far off pull it to.</summary>
    private const int FullRounds = 10;

    /// <summary>Relative change of every gain below which the weights have settled.</summary>
    private const double ConvergedChange = 1e-11;

    /// <summary>What was fitted elsewhere keeps its value: its weight is that of a deviation so much smaller.</summary>
    private const double FixedShare = 1e-7;

    private readonly ChannelObservations[] _channels;
    private readonly BendKnowledge? _bend;
    private readonly bool[] _hasLine;
    private double[] _at;
    private IsoEquations _solved;
    private List<CovariancePart>? _parts;
    private bool _withPatterns = true;
    private bool _withShift = true;

    private IsoFit(ChannelObservations[] channels, BendKnowledge? bend, bool[] hasLine)
    {
        _channels = channels;
        _bend = bend;
        _hasLine = hasLine;
        _at = new double[(channels.Length * NoiseModel.Size) + 1];
        for (int c = 0; c < channels.Length; c++)
        {
            _at[JointModel.PlaceOf(c, NoiseParameter.BlackDn)] = channels[c].Black.Value;
            _at[JointModel.PlaceOf(c, NoiseParameter.BendPerDn)] = bend?.Known?.Value ?? 0;
        }

        _solved = null!;
    }

    /// <summary>Fits an ISO.</summary>
    /// <param name="channels">What each channel's levels bring.</param>
    /// <param name="bend">What is known of the response's bend, which is then fitted; null for a straight response.</param>
    /// <returns>The fit; null where the levels do not determine it.</returns>
    public static IsoFit? Of(IReadOnlyList<ChannelObservations> channels, BendKnowledge? bend)
    {
        ChannelObservations[] all = [.. channels];
        bool[] hasLine = [.. all.Select(HasLine)];
        bool withShift = true;
        while (true)
        {
            var fit = new IsoFit(all, bend, hasLine) { _withShift = withShift };
            if (!fit.Iterate())
            {
                return null;
            }

            // Light does not go below none: noise that dark frames alone have passed for a black that moved.
            if (withShift && fit.ShowsNegativeLight)
            {
                withShift = false;
                continue;
            }

            // Variance that falls with light is no photon transfer: the channel has no line.
            bool[] rising = [.. hasLine.Select((has, c) => has && fit._at[JointModel.PlaceOf(c, NoiseParameter.GainDnPerElectron)] > 0)];
            if (rising.SequenceEqual(hasLine))
            {
                return fit;
            }

            hasLine = rising;
        }
    }

    /// <summary>Black and lines alone, where variances determine nothing.</summary>
    /// <param name="channels">What each channel's levels bring.</param>
    /// <exception cref="InvalidOperationException">Black is not a number.</exception>
    public static IsoFit OfKnown(IReadOnlyList<ChannelObservations> channels)
    {
        var fit = new IsoFit([.. channels], null, new bool[channels.Count]) { _withPatterns = false };
        return fit.Iterate() ? fit : throw new InvalidOperationException("Black and lines are independent observations of their own parameters.");
    }

    /// <summary>The bend of the response in 1/DN.</summary>
    public Estimate Bend => _solved.WeighedVariance(JointModel.PlaceOf(0, NoiseParameter.BendPerDn)) is { } variance
        ? new Estimate(Response.BendPerDn, Math.Sqrt(variance))
        : default;

    /// <summary>Whether all channels' variances scatter about their lines as chance lets them.</summary>
    public bool KeepsToLines => Enumerable.Range(0, _channels.Length).Select(LineOf).All(l => l is null || ChiSquareTest.ScatterFactor(l.ChiSquare, l.DegreesOfFreedom) == 1);

    /// <summary>How recorded signal follows exposure.</summary>
    public ResponseCurve Response => new(_at[JointModel.PlaceOf(0, NoiseParameter.BendPerDn)]);

    /// <summary>By how much black lay higher in lit frames than in dark ones, in DN.</summary>
    public double LitShiftDn => _solved.IsFitted(Places) ? _at[Places] : 0;

    /// <summary>Whether a lit level lies below black as it lay in lit frames, by more than what black does from level to level and noise.</summary>
    private bool ShowsNegativeLight => LitShiftDn > 0 && _solved.Rows.Of(IsoRowKind.Variance).Select(i => _solved.Rows[i]).Any(row =>
    {
        ChannelObservations channel = _channels[row.Channel];
        double signal = row.Level!.Channel.MeanDn - _at[JointModel.PlaceOf(row.Channel, NoiseParameter.BlackDn)] - LitShiftDn;
        return !row.Level.IsDark && -signal > Significance.Whole * Math.Sqrt(channel.Black.Variance + channel.Drift.OfMean(row.Level.Level.Frames) + (row.Level.VarianceOfFrameMeanDn2!.Value / row.Level.Level.Frames));
    });

    /// <summary>The photon-transfer line of a channel; null where its levels determine none.</summary>
    /// <param name="channel">Index of the channel.</param>
    public PhotonTransfer? LineOf(int channel)
    {
        if (!_hasLine[channel])
        {
            return null;
        }

        double Covariance(int first, int second) => Parts.Sum(p => p.Covariance[first, second]);
        int gain = JointModel.PlaceOf(channel, NoiseParameter.GainDnPerElectron);
        int intercept = JointModel.PlaceOf(channel, NoiseParameter.InterceptDn2);
        double[] squares = [.. _solved.Rows.Of(channel, IsoRowKind.Variance).Select(i => _solved.Rows[i]).Select(r => r.Misfit * r.Misfit / r.Weighed)];
        int points = squares.Length + (_channels[channel].Codes is null ? 0 : 1);
        return new PhotonTransfer(_at[gain], _at[intercept], Covariance(gain, gain), Covariance(intercept, intercept), Covariance(gain, intercept), squares.Sum(), points - 2, Converged: true);
    }

    /// <summary>How many times as far as chance lets them a channel's levels scatter about the law of their pixels' pattern; 1 where it may be chance.</summary>
    /// <param name="channel">Index of the channel.</param>
    public double PatternScatterOf(int channel) => Math.Sqrt(Errors.ScatterOf(channel, IsoRowKind.PixelPattern));

    /// <summary>All channels' parameters with their covariance.</summary>
    /// <param name="excess">An excess of noise that cannot be ruled out, and moves gains; null for none.</param>
    public JointModel Joint(ExcessNoise? excess = null)
    {
        List<CovariancePart> parts = [.. Parts];
        if (excess is not null)
        {
            Vector<double> doubt = Vector<double>.Build.Dense(Places);
            for (int c = 0; c < _channels.Length; c++)
            {
                if (_hasLine[c])
                {
                    Vector<double> shift = ShiftOf(c);
                    int gain = JointModel.PlaceOf(c, NoiseParameter.GainDnPerElectron);
                    double gainVariance = parts.Sum(p => p.Covariance[gain, gain]);
                    doubt += excess.DoubtOf(Math.Abs(shift[gain]), gainVariance) * shift;
                }
            }

            parts.Add(new CovariancePart(doubt.OuterProduct(doubt), double.PositiveInfinity));
        }

        return new JointModel(_at[..Places], parts);
    }

    /// <summary>By how much an excess of 1 moves a channel's parameters: all of them, in the places of the joint vector.</summary>
    /// <param name="channel">Index of a channel with a line.</param>
    public Vector<double> ShiftOf(int channel) => _solved.Answer(Errors.Excess(channel, Response)).SubVector(0, Places);

    /// <summary>Length of the joint vector.</summary>
    private int Places => _channels.Length * NoiseModel.Size;

    private IsoErrors Errors => new(_channels, _solved.Rows, _at);

    private List<CovariancePart> Parts => _parts ??= [.. Errors.Parts().Select(_solved.Answer).Concat(Errors.Sampling(_solved.IsFitted)).Select(p => p with { Covariance = p.Covariance.SubMatrix(0, Places, 0, Places) })];

    /// <summary>Whether a channel's levels determine a line.</summary>
    private static bool HasLine(ChannelObservations channel)
    {
        double[] signals = [.. channel.FitLevels.Select(l => l.IsDark ? l.DarkSignalDn.Value : l.Channel.MeanDn - channel.Black.Value), .. channel.Codes is null ? [] : new[] { 0.0 }];
        return channel.FitLevels.Any(l => !l.IsDark) && signals.Length > 1 && signals.Max() > signals.Min();
    }

    /// <summary>Rounds of linear fits, each with slopes and weights from the one before.</summary>
    private bool Iterate()
    {
        for (int round = 0; round < MostRounds; round++)
        {
            IsoRows rows = IsoRows.At(_channels, _hasLine, _bend, _at, isFirst: round == 0, _withPatterns, _withShift, FixedShare);
            if (IsoEquations.Solve(rows, _at.Length, isBendOpen: _bend is { Known: null } && !rows.TellBend) is not { } solved)
            {
                return false;
            }

            _solved = solved;
            double[] moved = [.. _at];
            Vector<double> step = solved.Step * (round < FullRounds ? 1 : 0.5);
            double change = 0;
            for (int i = 0; i < moved.Length; i++)
            {
                moved[i] += step[i];
            }

            for (int c = 0; c < _channels.Length; c++)
            {
                int gain = JointModel.PlaceOf(c, NoiseParameter.GainDnPerElectron);
                change = Math.Max(change, _hasLine[c] ? Math.Abs(step[gain]) / Math.Max(Math.Abs(moved[gain]), double.Epsilon) : 0);
            }

            if (!moved.All(double.IsFinite))
            {
                return false;
            }

            _at = moved;
            if (round > 1 && change <= ConvergedChange)
            {
                break;
            }
        }

        // What the levels do not determine was not measured; a response that was not bent is straight.
        foreach (int place in Enumerable.Range(0, _at.Length).Where(p => !_solved.IsFitted(p) && p % NoiseModel.Size != (int)NoiseParameter.BendPerDn))
        {
            _at[place] = double.NaN;
        }

        return true;
    }
}
