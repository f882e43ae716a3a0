namespace SensorLab.Measurement.Model;

/// <summary>Covariances of the errors of an ISO's rows, in one part that rests on its own degrees of freedom.</summary>
/// <param name="rows">The rows.</param>
/// <param name="degreesOfFreedom">What the part rests on.</param>
internal sealed class RowErrors(IsoRows rows, double degreesOfFreedom)
{
    private readonly List<(int First, int Second, double Covariance)> _entries = [];

    /// <summary>What the part rests on.</summary>
    public double DegreesOfFreedom { get; } = degreesOfFreedom;

    /// <summary>Rows and their covariance, each row over its deviation; symmetric.</summary>
    public IReadOnlyList<(int First, int Second, double Covariance)> Entries => _entries;

    /// <summary>A part with the variance of a single row.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="row">The one.</param>
    /// <param name="variance">Its variance, in its own unit.</param>
    /// <param name="degreesOfFreedom">What the part rests on.</param>
    public static RowErrors Single(IsoRows rows, int row, double variance, double degreesOfFreedom)
    {
        var errors = new RowErrors(rows, degreesOfFreedom);
        errors.Add(row, row, variance);
        return errors;
    }

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
}
