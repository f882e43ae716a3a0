using SensorLab.Measurement.Uncertainty;

namespace SensorLab.Measurement.Latitude;

/// <summary>Temporal row and column variance without light, in DN².</summary>
internal sealed record VarianceSummary(Estimate RowDn2, Estimate ColumnDn2);
