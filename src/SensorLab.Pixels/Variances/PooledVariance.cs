using SensorLab.Pixels.Planes;
using SensorLab.Profiles;

namespace SensorLab.Pixels.Variances;

/// <summary>The variance of a channel from that of its planes, which have as many sites each: every plane about its own mean.</summary>
/// <remarks>
/// Places of a repeat may see light differently by design (beside other neighbours, under another part of a lens): what
/// sites of one place do not share is noise or pattern, what places do not share is neither. Planes of one row share the
/// row's noise and no pixels: their row parts correlate by the square of its share in the variance of a row's mean.
/// </remarks>
internal static class PooledVariance
{
    /// <summary>Temporal variance.</summary>
    /// <param name="planes">The planes.</param>
    /// <param name="variances">The variance of each.</param>
    public static TemporalVariance Of(IReadOnlyList<PlaneMoments> planes, IReadOnlyList<TemporalVariance> variances) => variances.Count == 1 ? variances[0] : new TemporalVariance(
        Of(planes, [.. variances.Select(v => v.Parts)], 0, null),
        variances.Average(v => v.NarrowRowDn2),
        variances.Average(v => v.NarrowColumnDn2),
        variances.Average(v => v.BandDn2));

    /// <summary>The parts of a variance.</summary>
    /// <param name="planes">The planes.</param>
    /// <param name="parts">The parts of each.</param>
    /// <param name="otherShare">How much of <paramref name="other"/> goes into the means of lines besides.</param>
    /// <param name="other">Another variance that the lines hold; null for none.</param>
    public static VarianceParts Of(IReadOnlyList<PlaneMoments> planes, IReadOnlyList<VarianceParts> parts, double otherShare, VarianceParts? other)
    {
        if (parts.Count == 1)
        {
            return parts[0];
        }

        (double pixel, double row, double column) = (parts.Average(p => p.PixelDn2), parts.Average(p => p.RowDn2), parts.Average(p => p.ColumnDn2));
        double pixels = pixel + (otherShare * (other?.PixelDn2 ?? 0));
        return new VarianceParts
        {
            PixelDn2 = pixel,
            PixelUncertaintyDn2 = Math.Sqrt(parts.Sum(p => p.PixelUncertaintyDn2 * p.PixelUncertaintyDn2)) / parts.Count,
            RowDn2 = row,
            RowUncertaintyDn2 = Uncertainty(planes.Select(p => p.Place.Row), parts.Select(p => p.RowUncertaintyDn2), Shared(row + (otherShare * (other?.RowDn2 ?? 0)), pixels / planes[0].Columns)),
            ColumnDn2 = column,
            ColumnUncertaintyDn2 = Uncertainty(planes.Select(p => p.Place.Column), parts.Select(p => p.ColumnUncertaintyDn2), Shared(column + (otherShare * (other?.ColumnDn2 ?? 0)), pixels / planes[0].Rows)),
        };
    }

    private static double Shared(double lineDn2, double pixelsDn2) => lineDn2 > 0 ? Math.Pow(lineDn2 / (lineDn2 + Math.Max(0, pixelsDn2)), 2) : 0;

    /// <summary>Of the mean of all planes: those of one line are correlated, those of different ones are not.</summary>
    private static double Uncertainty(IEnumerable<int> lines, IEnumerable<double> uncertainties, double correlation)
    {
        (int Line, double Own)[] all = [.. lines.Zip(uncertainties)];
        double variance = all.GroupBy(a => a.Line, a => a.Own).Sum(line =>
        {
            double alone = line.Sum(own => own * own);
            double together = line.Sum();
            return alone + (correlation * ((together * together) - alone));
        });
        return Math.Sqrt(variance) / all.Length;
    }
}
