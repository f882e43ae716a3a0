using MathNet.Numerics.LinearAlgebra;
using SensorLab.Frames;
using SensorLab.Simulation.Bodies;

namespace SensorLab.AccuracyStudy;

/// <summary>The Cramér–Rao bound of gain and read noise for the frames of a study set.</summary>
/// <remarks>
/// <para>
/// The likelihood: pixel means are free, so a level of n frames has n − 1 contrasts. In each, a row of C pixels gives
/// C − 1 deviations from the row's mean of variance v = σ_p² + 1/12 + K·S, and one mean of variance w = τ² + v/C, where
/// σ_p² is the pixels' read noise and τ² the rows'. A normal variance v seen with ν degrees of freedom carries the
/// information ν/(2v²)·(∂v/∂θ)(∂v/∂θ)ᵀ on θ = (K, σ_p², τ²). Dark frames of a longer exposure hold a dark signal that is
/// not known: it is a parameter of its own, of which the difference of the means tells beside the variance. Shot noise is taken as normal: its excess would widen the
/// bound, by less than 1 % at the signals used. Levels above 70 % of saturation are left out, as the model does.
/// </para>
/// <para>
/// Below half a step, and where code 0 cuts values off, dark frames carry the information of their rounded codes: the probability of every combination of
/// the codes of one pixel in all dark frames, its offset integrated over the fixed pattern, on black, σ_p² and DSNU².
/// Gain and read noise follow by the delta method from the inverse of the summed information.
/// </para>
/// </remarks>
internal sealed class CramerRaoBound
{
    private const double FitShare = 0.7;
    private const double CoarseSteps = 0.5;

    /// <summary>Standard deviations above code 0 below which dark values are cut off.</summary>
    private const double ClippedDeviations = 3;

    private readonly VirtualBody _body;
    private readonly BodyTruth _truth;
    private readonly SensorChannel _channel;
    private readonly bool _coarse;
    private readonly bool _clipped;
    private readonly int _darkFrames;
    private readonly double _longDarkSeconds;
    private readonly int _meteredFrames;
    private readonly int _rows;
    private readonly int _columns;

    private CramerRaoBound(StudyBody body, SensorChannel channel)
    {
        _body = body.Body;
        _darkFrames = body.DarkFrames;
        _longDarkSeconds = body.LongDarkSeconds;
        _meteredFrames = body.MeteredFrames;
        _truth = new BodyTruth(body);
        _channel = channel;
        _coarse = _truth.ReadNoiseElectron / (_truth.GainElectronPerDn * _truth.StepDn) < CoarseSteps;
        _clipped = _truth.BlackDn < ClippedDeviations * _truth.ReadNoiseElectron / _truth.GainElectronPerDn;
        // As many photosites in as many rows, wherever they lie: of rows that hold more and fewer the bound is a little lower.
        IReadOnlyList<(int Row, int Column)> sites = _body.Filters.SitesOf(channel);
        int rowsARepeat = sites.Select(s => s.Row).Distinct().Count();
        _rows = _body.HeightPixels / _body.Filters.Rows * rowsARepeat;
        _columns = _body.WidthPixels / _body.Filters.Columns * sites.Count / rowsARepeat;
    }

    /// <summary>Bounds of the standard deviations of gain (e⁻/DN), read noise in DN and in e⁻; null where dark codes hold more than pixels' own noise, whose likelihood is not written down here.</summary>
    public static (double Gain, double ReadNoiseDn, double ReadNoiseElectron)? Of(StudyBody body, SensorChannel channel)
    {
        var bound = new CramerRaoBound(body, channel);
        VirtualBody shot = body.Body;
        bool isShared = body.LongDarkSeconds > 0 || body.BlackDriftDn > 0
            || shot.RowNoiseElectron > 0 || shot.ColumnNoiseElectron > 0 || shot.DsnuRowElectron > 0 || shot.DsnuColumnElectron > 0;
        return isShared && (bound._coarse || bound._clipped) ? null : bound.Solve();
    }

    private (double Gain, double ReadNoiseDn, double ReadNoiseElectron) Solve()
    {
        double gain = 1 / _truth.GainElectronPerDn;
        double noise = _truth.ReadNoiseElectron * gain;

        // θ = (K, σ_p², τ², black, DSNU², dark signal); what a body's likelihood does not hold is left out of the inverse.
        Matrix<double> information = Matrix<double>.Build.Dense(6, 6);
        AddLevel(information, StudySet.MeteredShare, _meteredFrames);
        foreach (double share in StudySet.BracketShares)
        {
            AddLevel(information, share, StudySet.BracketFrames);
        }

        bool byCodes = _coarse || _clipped;
        if (byCodes)
        {
            double pattern = Math.Pow(_truth.DsnuElectron * gain, 2);
            Matrix<double> dark = RoundedInformation.OfPixel(_truth.BlackDn, noise * noise, pattern, _darkFrames);
            Add(information, [3, 1, 4], dark * (_rows * _columns));
        }
        else if (_longDarkSeconds == 0)
        {
            AddLevel(information, 0, _darkFrames);
        }
        else
        {
            AddLevel(information, 0, _darkFrames / 2);
            AddLongDarks(information, _darkFrames / 2);
        }

        int[] free = _coarse ? [0, 1, 3, 4] : _clipped ? [0, 1, 2, 3, 4] : _longDarkSeconds == 0 ? [0, 1, 2] : [0, 1, 2, 5];
        Matrix<double> covariance = Matrix<double>.Build.Dense(free.Length, free.Length, (i, j) => information[free[i], free[j]]).Inverse();
        double total = covariance[1, 1] + (_coarse ? 0 : covariance[2, 2] + (2 * covariance[1, 2]));
        double cross = covariance[0, 1] + (_coarse ? 0 : covariance[0, 2]);
        double toNoise = 1 / (2 * noise);
        double toGain = noise / gain;
        double electrons = (total * toNoise * toNoise) + (toGain * toGain * covariance[0, 0]) - (2 * toNoise * toGain * cross);
        return (Math.Sqrt(covariance[0, 0]) / (gain * gain), Math.Sqrt(total) * toNoise, Math.Sqrt(electrons) / gain);
    }

    private void AddLevel(Matrix<double> information, double share, int frames)
    {
        double gain = 1 / _truth.GainElectronPerDn;
        double light = share * _truth.SaturatingLightElectron * _body.ChannelSensitivity.Of(_channel);
        double signal = light * gain;
        if (signal > FitShare * _truth.SaturationDn)
        {
            return;
        }

        double row = Math.Pow(_truth.RowNoiseElectron * gain, 2);
        double variance = Math.Pow(_truth.ReadNoiseElectron * gain, 2) - row + (_truth.StepDn * _truth.StepDn / 12) + (gain * signal);
        double contrasts = frames - 1;
        AddVariance(information, [0, 1, 2], [signal, 1, 0], contrasts * _rows * (_columns - 1), variance);
        if (!_coarse)
        {
            AddVariance(information, [0, 1, 2], [signal / _columns, 1.0 / _columns, 1], contrasts * _rows, row + (variance / _columns));
        }
    }

    private void AddLongDarks(Matrix<double> information, int frames)
    {
        double gain = 1 / _truth.GainElectronPerDn;
        double signal = _body.DarkCurrentElectronPerSecond * _longDarkSeconds * gain;
        double row = Math.Pow(_truth.RowNoiseElectron * gain, 2);
        double unlit = Math.Pow(_truth.ReadNoiseElectron * gain, 2) - row + (_truth.StepDn * _truth.StepDn / 12);
        double variance = unlit + (gain * signal);
        double contrasts = frames - 1;
        int[] parameters = [0, 1, 2, 5];
        AddVariance(information, parameters, [signal, 1, 0, gain], contrasts * _rows * (_columns - 1), variance);
        AddVariance(information, parameters, [signal / _columns, 1.0 / _columns, 1, gain / _columns], contrasts * _rows, row + (variance / _columns));
        double means = (((unlit + variance) / _columns) + (2 * row)) / _rows / frames;
        information[5, 5] += 1 / means;
    }

    private static void AddVariance(Matrix<double> information, int[] parameters, double[] derivative, double degrees, double variance)
    {
        Vector<double> slope = Vector<double>.Build.Dense(derivative);
        Add(information, parameters, slope.OuterProduct(slope) * (degrees / (2 * variance * variance)));
    }

    private static void Add(Matrix<double> information, int[] at, Matrix<double> part)
    {
        for (int i = 0; i < at.Length; i++)
        {
            for (int j = 0; j < at.Length; j++)
            {
                information[at[i], at[j]] += part[i, j];
            }
        }
    }
}
