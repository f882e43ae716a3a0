using MathNet.Numerics.LinearAlgebra;
using SensorLab.Law;
using SensorLab.Measurement.Fitting;

namespace SensorLab.Measurement.Model;

/// <summary>One round of an ISO's fit: its rows solved for the parameters that they determine.</summary>
internal sealed class IsoEquations
{
    private static readonly int BendPlace = JointModel.PlaceOf(0, NoiseParameter.BendPerDn);

    private readonly (int Column, double Value)[][] _design;
    private readonly int[] _columns;
    private readonly LinearFit _fit;

    private IsoEquations(IsoRows rows, (int Column, double Value)[][] design, int[] columns, LinearFit fit)
    {
        Rows = rows;
        _design = design;
        _columns = columns;
        _fit = fit;
    }

    /// <summary>The rows.</summary>
    public IsoRows Rows { get; }

    /// <summary>By how much the parameters move, in their places of the joint vector.</summary>
    public Vector<double> Step => Spread(_fit.Parameters);

    /// <summary>Solves the rows.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="places">Length of the joint vector.</param>
    /// <param name="isBendOpen">Whether the bend waits: without a gain yet, a first round knows no slope of it.</param>
    /// <returns>The round; null where the rows do not determine their parameters.</returns>
    public static IsoEquations? Solve(IsoRows rows, int places, bool isBendOpen)
    {
        int[] columns = new int[places];
        Array.Fill(columns, -1);
        int count = 0;
        for (int i = 0; i < rows.Count; i++)
        {
            foreach ((int place, double slope) in rows[i].Slopes)
            {
                if (slope != 0 && columns[place] < 0 && !(isBendOpen && place == BendPlace))
                {
                    columns[place] = count++;
                }
            }
        }

        (int Column, double Value)[][] design = new (int, double)[rows.Count][];
        Vector<double> misfits = Vector<double>.Build.Dense(rows.Count);
        for (int i = 0; i < rows.Count; i++)
        {
            double deviation = Math.Sqrt(rows[i].Weighed);
            misfits[i] = rows[i].Misfit / deviation;
            design[i] = [.. rows[i].Slopes.Where(s => columns[s.Place] >= 0).Select(s => (columns[s.Place], s.Slope / deviation))];
        }

        return NormalEquations.Solve(design, misfits, count) is { } fit ? new IsoEquations(rows, design, columns, fit) : null;
    }

    /// <summary>Whether a parameter is fitted; every channel's bend is the first one's.</summary>
    /// <param name="place">Its place in the joint vector.</param>
    public bool IsFitted(int place) => ColumnOf(place) >= 0;

    /// <summary>Variance of a parameter where every row's error has the variance of its weight.</summary>
    /// <param name="place">Its place in the joint vector.</param>
    /// <returns>The variance; null where the parameter is not fitted.</returns>
    public double? WeighedVariance(int place) => ColumnOf(place) is >= 0 and int column ? _fit.UnitCovariance[column, column] : null;

    /// <summary>What the parameters make of the rows: by how much each moves with an error of a row, over the row's deviation.</summary>
    /// <param name="errors">The rows' errors, each over its deviation.</param>
    public Vector<double> Answer(Vector<double> errors)
    {
        Vector<double> slope = Vector<double>.Build.Dense(_fit.Parameters.Count);
        for (int i = 0; i < _design.Length; i++)
        {
            foreach ((int column, double value) in _design[i])
            {
                slope[column] += value * errors[i];
            }
        }

        return Spread(_fit.UnitCovariance * slope);
    }

    /// <summary>The covariance that errors of the rows leave in the parameters: A·Σ·Aᵀ, A the parameters' answer to the rows.</summary>
    /// <param name="errors">The rows' errors.</param>
    public CovariancePart Answer(RowErrors errors)
    {
        // Xᵀ·Σ·X first, whose rows are sparse, then the dense covariance on both sides of it.
        Matrix<double> inner = Matrix<double>.Build.Dense(_fit.Parameters.Count, _fit.Parameters.Count);
        foreach ((int first, int second, double covariance) in errors.Entries)
        {
            foreach ((int row, double left) in _design[first])
            {
                foreach ((int column, double right) in _design[second])
                {
                    inner[row, column] += left * covariance * right;
                }
            }
        }

        Matrix<double> fitted = _fit.UnitCovariance * inner * _fit.UnitCovariance;
        int[] columns = [.. Enumerable.Range(0, _columns.Length).Select(ColumnOf)];
        return new CovariancePart(
            Matrix<double>.Build.Dense(columns.Length, columns.Length, (i, j) => columns[i] >= 0 && columns[j] >= 0 ? fitted[columns[i], columns[j]] : 0),
            errors.DegreesOfFreedom);
    }

    private static bool IsBend(int place) => place % NoiseModel.Size == (int)NoiseParameter.BendPerDn;

    private int ColumnOf(int place) => _columns[IsBend(place) ? BendPlace : place];

    private Vector<double> Spread(Vector<double> fitted) =>
        Vector<double>.Build.Dense(_columns.Length, place => ColumnOf(place) is >= 0 and int column ? fitted[column] : 0);
}
