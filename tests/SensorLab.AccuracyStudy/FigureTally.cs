using MathNet.Numerics;
using SensorLab.Profiles;

namespace SensorLab.AccuracyStudy;

/// <summary>Errors of one figure in one channel of one body, over all sets.</summary>
/// <param name="truth">The true value.</param>
/// <param name="bound">The Cramér–Rao bound of its standard deviation; null where none is known.</param>
/// <param name="oneSided">Whether its interval need only hold on one side.</param>
internal sealed class FigureTally(double truth, double? bound, bool oneSided)
{
    /// <summary>Share of intervals at zero or bounds from which a figure counts as one at a limit.</summary>
    private const double LimitShare = 0.01;

    private double _error;
    private double _squares;
    private double _uncertainty;
    private double _unbiased;
    private int _touching;

    public int Estimates { get; private set; }

    /// <summary>Estimates and bounds.</summary>
    public int Intervals { get; private set; }

    public int Covered { get; private set; }

    public int Absent { get; private set; }

    /// <summary>A figure at a limit: its interval touches zero.</summary>
    public bool AtLimit => oneSided || _touching > LimitShare * Intervals;

    public double Bias => _error / Estimates;

    public double RelativeBias => truth == 0 ? double.NaN : Bias / truth;

    public double MeanUncertainty => _uncertainty / Estimates;

    public double BiasOverUncertainty => Bias / MeanUncertainty;

    /// <summary>Root-mean-square error over mean stated standard uncertainty, this free of the bias that few degrees of freedom give a root.</summary>
    public double ErrorOverUncertainty => Math.Sqrt(_squares / Estimates) / (_unbiased / Estimates);

    /// <summary>Root-mean-square error over the Cramér–Rao bound.</summary>
    public double? ErrorOverBound => bound is { } deviation ? Math.Sqrt(_squares / Estimates) / deviation : null;

    public void Add(Figure? figure)
    {
        if (figure is null || figure.AtLeast is not null)
        {
            Absent++;
            return;
        }

        Intervals++;
        if (figure.AtMost is { } most)
        {
            _touching++;
            Covered += truth <= most ? 1 : 0;
            return;
        }

        double error = figure.Value!.Value - truth;
        Estimates++;
        _error += error;
        _squares += error * error;
        _uncertainty += figure.StandardUncertainty!.Value;
        _unbiased += figure.StandardUncertainty.Value / MeanOfRoot(figure.DegreesOfFreedom);
        _touching += figure.Lower95 == 0 ? 1 : 0;
        Covered += truth >= figure.Lower95 && truth <= figure.Upper95 ? 1 : 0;
    }

    /// <summary>Mean of a standard deviation estimated with some degrees of freedom over the true one, of normal values: 0.80 with one.</summary>
    private static double MeanOfRoot(double? degreesOfFreedom) => degreesOfFreedom is { } degrees
        ? Math.Sqrt(2 / degrees) * Math.Exp(SpecialFunctions.GammaLn((degrees + 1) / 2) - SpecialFunctions.GammaLn(degrees / 2))
        : 1;
}
