using SensorLab.Profiles;

namespace SensorLab.Measurement.Pixels;

/// <summary>The temporal variance of a level.</summary>
/// <param name="Parts">Its pixel, row and column parts.</param>
/// <param name="NarrowRowDn2">The row part by second differences, which bands wider than a few rows do not reach, in DN².</param>
/// <param name="NarrowColumnDn2">The same of the columns: light that moves sideways between frames does not reach it.</param>
/// <param name="BandDn2">Variance in DN² of wide bands across the rows, left out of the parts; null where there are none.</param>
internal sealed record TemporalVariance(VarianceParts Parts, double NarrowRowDn2, double NarrowColumnDn2, double? BandDn2);
