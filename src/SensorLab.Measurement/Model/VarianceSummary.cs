using SensorLab.Law;

namespace SensorLab.Measurement.Model;

/// <summary>Temporal row and column variance without light, in DN².</summary>
internal sealed record VarianceSummary(Estimate RowDn2, Estimate ColumnDn2)
{
    /// <summary>Both together.</summary>
    public Estimate Sum
    {
        get
        {
            double variance = RowDn2.Variance + ColumnDn2.Variance;
            double fourths = (RowDn2.Variance * RowDn2.Variance / RowDn2.DegreesOfFreedom) + (ColumnDn2.Variance * ColumnDn2.Variance / ColumnDn2.DegreesOfFreedom);
            return new Estimate(RowDn2.Value + ColumnDn2.Value, Math.Sqrt(variance), fourths > 0 ? variance * variance / fourths : double.PositiveInfinity);
        }
    }

    /// <summary>Variance in DN⁴ of their sum as a statement on these very lines: without what chance made of the lines themselves.</summary>
    public double MeasuredDn4 => Measured(RowDn2) + Measured(ColumnDn2);

    private static double Measured(Estimate shared) => Math.Max(0, shared.Variance - (2 * shared.Value * shared.Value / shared.DegreesOfFreedom));
}
