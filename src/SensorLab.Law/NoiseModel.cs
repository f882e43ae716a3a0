using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Law;

/// <summary>A channel as a vector of parameters with their covariance: signal, noise and latitude follow from it.</summary>
/// <remarks>
/// EMVA 1288 R4 Linear: σ² = σ_d² + σ_q² + K·S + DSNU² + (PRNU·S)². Parameters that were not measured are NaN, and so
/// is all that rests on them; <see cref="Evaluate"/> turns NaN into null.
/// </remarks>
public sealed class NoiseModel
{
    /// <summary>Standard normal quantile that 0.1 % exceed.</summary>
    private const double FirstClipQuantile = 3.090232306167813;

    /// <summary>(z² − 1)/6 at that quantile.</summary>
    private const double FirstClipSkewnessFactor = ((FirstClipQuantile * FirstClipQuantile) - 1) / 6;

    /// <summary>Rounds in which the slope at a criterion's signal settles: it is near 1 there.</summary>
    private const int SlopeIterations = 30;

    /// <summary>How many parameters a model has.</summary>
    public static readonly int Size = Enum.GetValues<NoiseParameter>().Length;

    private readonly double[] _parameters;
    private readonly IReadOnlyList<CovariancePart> _parts;
    private readonly double? _clipStepDn;

    /// <summary>A model of parameters that are known together.</summary>
    /// <param name="parameters">Values in the order of <see cref="NoiseParameter"/>; NaN for what was not measured.</param>
    /// <param name="parts">Their covariance in independent parts.</param>
    /// <param name="clipStepDn">Spacing of codes in DN where the converter limits; null where the full well does.</param>
    public NoiseModel(IReadOnlyList<double> parameters, IReadOnlyList<CovariancePart> parts, double? clipStepDn = null)
    {
        _parameters = [.. parameters];
        _parts = parts;
        _clipStepDn = clipStepDn;
    }

    /// <summary>A model without any parameter but a straight response.</summary>
    public static NoiseModel Empty { get; } = new NoiseModel([.. Enumerable.Repeat(double.NaN, Size)], []).With(NoiseParameter.BendPerDn, new Estimate(0, 0));

    /// <summary>The value of a parameter; NaN where it was not measured.</summary>
    /// <param name="parameter">The parameter.</param>
    public double this[NoiseParameter parameter] => _parameters[(int)parameter];

    /// <summary>The same model with a parameter that is independent of the others.</summary>
    /// <param name="parameter">The parameter, not measured so far.</param>
    /// <param name="estimate">Its estimate; null leaves the model as it is.</param>
    public NoiseModel With(NoiseParameter parameter, Estimate? estimate)
    {
        if (estimate is not { } known)
        {
            return this;
        }

        double[] parameters = [.. _parameters];
        parameters[(int)parameter] = known.Value;
        Matrix<double> own = Matrix<double>.Build.Dense(Size, Size);
        own[(int)parameter, (int)parameter] = known.Variance;
        return new NoiseModel(parameters, known.Variance > 0 ? [.. _parts, new CovariancePart(own, known.DegreesOfFreedom)] : _parts, _clipStepDn);
    }

    /// <summary>The same model where the converter and not the full well limits.</summary>
    /// <param name="stepDn">Spacing of its codes in DN.</param>
    public NoiseModel WithConverterClip(double stepDn) => new(_parameters, _parts, stepDn);

    /// <summary>A quantity that follows from the parameters.</summary>
    /// <param name="quantity">Computes it from a model; NaN where it has no value.</param>
    /// <returns>The quantity with its standard uncertainty; null where it has no value.</returns>
    public Estimate? Evaluate(Func<NoiseModel, double> quantity) =>
        Propagation.Of(parameters => quantity(new NoiseModel(parameters, [], _clipStepDn)), _parameters, _parts);

    /// <summary>Temporal variance of rows and columns in DN².</summary>
    public double RowColumnDn2 => this[NoiseParameter.RowDn2] + this[NoiseParameter.ColumnDn2];

    /// <summary>DSNU² in DN², of pixels, rows and columns together.</summary>
    public double DsnuSquareDn2 => this[NoiseParameter.PixelDsnuSquareDn2] + this[NoiseParameter.RowDsnuSquareDn2] + this[NoiseParameter.ColumnDsnuSquareDn2];

    /// <summary>PRNU² as a share of the signal, squared, of pixels, rows and columns together.</summary>
    public double PrnuSquare => this[NoiseParameter.PixelPrnuSquare] + this[NoiseParameter.RowPrnuSquare] + this[NoiseParameter.ColumnPrnuSquare];

    /// <summary>How recorded signal follows exposure.</summary>
    public ResponseCurve Response => new(this[NoiseParameter.BendPerDn]);

    /// <summary>Middle grey's signal in DN, as recorded.</summary>
    public double GreySignalDn => this[NoiseParameter.GreyMeanDn] - this[NoiseParameter.BlackDn];

    /// <summary>Saturation signal in DN, as recorded.</summary>
    public double SaturationSignalDn => this[NoiseParameter.SaturationMeanDn] - this[NoiseParameter.BlackDn];

    /// <summary>Middle grey's signal in DN of a straight response: what ratios of exposures are taken from.</summary>
    public double GreyLinearDn => Response.LinearOf(GreySignalDn);

    /// <summary>Saturation in DN of a straight response.</summary>
    public double SaturationLinearDn => Response.LinearOf(SaturationSignalDn);

    /// <summary>Temporal variance of one pixel in DN².</summary>
    /// <param name="signalDn">Recorded signal in DN.</param>
    public double TemporalVarianceAt(double signalDn) =>
        this[NoiseParameter.InterceptDn2] + RowColumnDn2 + (this[NoiseParameter.GainDnPerElectron] * Response.ShotSignalOf(signalDn));

    /// <summary>Temporal and fixed-pattern variance of one pixel in DN².</summary>
    /// <param name="signalDn">Recorded signal in DN.</param>
    public double TotalVarianceAt(double signalDn)
    {
        double responsive = Response.ResponsiveSignalOf(signalDn);
        return TemporalVarianceAt(signalDn) + DsnuSquareDn2 + (PrnuSquare * responsive * responsive);
    }

    /// <summary>The signal at which total SNR of one pixel is a criterion, in DN of a straight response.</summary>
    /// <param name="snr">The criterion, above 0.</param>
    /// <returns>The signal; NaN where the criterion is never met (fixed pattern alone keeps SNR below it).</returns>
    /// <remarks>
    /// SNR as against exposure: where the response bends, noise is divided by its slope. The positive root of
    /// x² (1 − q²·PRNU²) = q² (σ_0²/slope² + K·x), q the criterion, σ_0² the variance without light, the slope iterated.
    /// </remarks>
    public double SignalAtSnr(double snr)
    {
        double square = snr * snr;
        double lead = 1 - (square * PrnuSquare);
        if (!(lead > 0))
        {
            return double.NaN;
        }

        double linear = square * this[NoiseParameter.GainDnPerElectron];
        double constant = square * TotalVarianceAt(0);
        double signal = 0;
        for (int i = 0; i < (Response.BendPerDn == 0 ? 1 : SlopeIterations); i++)
        {
            double slope = Response.SlopeAt(Response.RecordedOf(signal));
            signal = (linear + Math.Sqrt((linear * linear) + (4 * lead * constant / (slope * slope)))) / (2 * lead);
        }

        return signal;
    }

    /// <summary>The mean recorded signal in DN at which the first 0.1 % of pixels clip.</summary>
    /// <remarks>
    /// The root of S + σ(S)·(3.09 + 1.42·γ(S)) = edge, γ the skewness of shot noise and PRNU together (Cornish and Fisher's
    /// first term; photons alone would need none at such signals, but bright pixels are also the noisier ones). Pixels clip at the converter half a step below its last code, before they are
    /// rounded and with all their noise; at the full well before the amplifier bends the response or adds any.
    /// </remarks>
    public double FirstClipSignalDn
    {
        get
        {
            double edge = _clipStepDn is { } step ? SaturationSignalDn - (step / 2) : SaturationLinearDn;
            double signal = edge;
            for (int i = 0; i < 60; i++)
            {
                double variance = Math.Max(0, ClippingVarianceAt(signal));
                double skewness = variance > 0 ? ThirdCumulantAt(signal) / Math.Pow(variance, 1.5) : 0;
                signal = edge - (Math.Sqrt(variance) * (FirstClipQuantile + (FirstClipSkewnessFactor * skewness)));
            }

            return _clipStepDn is null ? Response.RecordedOf(signal) : signal;
        }
    }

    /// <summary>Third cumulant of a pixel's values in DN³: K²S of the photons, 3K(PRNU·S)² of photons whose mean differs.</summary>
    private double ThirdCumulantAt(double signalDn)
    {
        double gain = this[NoiseParameter.GainDnPerElectron];
        return (gain * gain * signalDn) + (3 * gain * Math.Max(0, PrnuSquare) * signalDn * signalDn);
    }

    private double ClippingVarianceAt(double signalDn) => _clipStepDn is { } step
        ? TotalVarianceAt(signalDn) - RoundingNoise.VarianceDn2(step)
        : (this[NoiseParameter.GainDnPerElectron] * signalDn) + (PrnuSquare * signalDn * signalDn);
}
