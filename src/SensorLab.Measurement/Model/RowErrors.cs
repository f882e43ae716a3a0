using MathNet.Numerics.LinearAlgebra;

namespace SensorLab.Measurement.Model;

/// <summary>Covariances of the errors of an ISO's rows, in one part that rests on its own degrees of freedom.</summary>
/// <param name="rows">The rows.</param>
/// <param name="degreesOfFreedom">What the part rests on.</param>
internal sealed class RowErrors(IReadOnlyList<IsoRow> rows, double degreesOfFreedom)
{
    private readonly List<(int First, int Second, double Covariance)> _entries = [];

    /// <summary>What the part rests on.</summary>
    public double DegreesOfFreedom { get; } = degreesOfFreedom;

    /// <summary>Adds a covariance.</summary>
    /// <param name="first">A row.</param>
    /// <param name="second">The same one or another.</param>
    /// <param name="covariance">Their covariance, in their own units.</param>
    public void Add(int first, int second, double covariance)
    {
        double scaled = covariance / Math.Sqrt(rows[first].Weighed * rows[second].Weighed);
        _entries.Add((first, second, scaled));
        if (second != first)
        {
            _entries.Add((second, first, scaled));
        }
    }

    /// <summary>The covariance of what is linear in the rows: A·Σ·Aᵀ.</summary>
    /// <param name="answer">A: parameters × rows, each row over its deviation.</param>
    public Matrix<double> Answered(Matrix<double> answer)
    {
        Matrix<double> right = Matrix<double>.Build.Dense(rows.Count, answer.RowCount);
        foreach ((int first, int second, double covariance) in _entries)
        {
            for (int p = 0; p < answer.RowCount; p++)
            {
                right[first, p] += covariance * answer[p, second];
            }
        }

        return answer * right;
    }
}
