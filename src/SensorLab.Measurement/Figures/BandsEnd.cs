using SensorLab.Law;

namespace SensorLab.Measurement.Figures;

/// <summary>Where rows or columns begin to show as bands, on the way down into the shadows.</summary>
/// <param name="BelowGreyEv">EV below middle grey from which on bands show; negative where they show above grey already.</param>
/// <param name="SignalDn">The signal there in DN.</param>
/// <param name="LineElectron">Standard deviation that a line's pixels share in one picture without light, in e⁻.</param>
/// <param name="AreRows">Whether rows show; else columns do.</param>
/// <remarks>
/// A viewer averages along a line. Over a patch of 100 pixels of one channel along it the pixels' own noise averages
/// out to a tenth, so that a line stands out of it, at an SNR of the line's mean of 1, once it deviates by a tenth of a
/// pixel's noise. Lines (temporal and fixed) do not grow with light and the pixels' noise does: bands show below the
/// signal S at which 100·σ_line² = σ_pixel²(0) + K·S + (PRNU·S)². The patch is ours, not a standard's: what a viewer
/// takes in at one glance at a screen that shows every pixel. A picture delivered smaller averages grain away sooner than
/// bands, which then show somewhat higher.
/// </remarks>
internal sealed record BandsEnd(Estimate BelowGreyEv, double SignalDn, double LineElectron, bool AreRows)
{
    /// <summary>Pixels of one channel along a line over which a viewer averages.</summary>
    private const double PatchPixels = 100;

    /// <summary>Where bands show, by the greens or Y; null where they do not show above a signal.</summary>
    /// <param name="pooled">The model of the greens, middle grey known.</param>
    /// <param name="criterionSignalDn">The signal below which SNR has given up before, in DN.</param>
    public static BandsEnd? Of(NoiseModel pooled, double criterionSignalDn)
    {
        if (Lines(pooled, NoiseParameter.RowDn2, NoiseParameter.RowDsnuSquareDn2) is not { } rows || Lines(pooled, NoiseParameter.ColumnDn2, NoiseParameter.ColumnDsnuSquareDn2) is not { } columns)
        {
            return null;
        }

        BandsEnd? fromRows = From(rows, rows.Value + columns.Value, pooled, areRows: true);
        BandsEnd? fromColumns = From(columns, rows.Value + columns.Value, pooled, areRows: false);
        BandsEnd? first = fromColumns is not null && !(fromRows?.SignalDn >= fromColumns.SignalDn) ? fromColumns : fromRows;
        return first is not null && first.SignalDn > criterionSignalDn ? first : null;
    }

    /// <summary>Moving and resting parts together; the resting one where it was measured.</summary>
    private static Estimate? Lines(NoiseModel pooled, NoiseParameter moving, NoiseParameter resting) =>
        pooled.Evaluate(m => m[moving] + (double.IsFinite(m[resting]) ? m[resting] : 0));

    private static BandsEnd? From(Estimate lineDn2, double allLinesDn2, NoiseModel pooled, bool areRows)
    {
        if (!(lineDn2.Value > Significance.Deviations * lineDn2.StandardUncertainty))
        {
            return null;
        }

        double Below(NoiseModel model, double line) => Math.Log2(model.GreySignalDn / SignalAt(model, line, allLinesDn2));
        Estimate? end = pooled.Evaluate(m => Below(m, lineDn2.Value));
        double reach = (Below(pooled, lineDn2.Value + lineDn2.StandardUncertainty) - Below(pooled, lineDn2.Value - lineDn2.StandardUncertainty)) / 2;
        return end is { } known && double.IsFinite(reach)
            ? new BandsEnd(
                new Estimate(known.Value, double.Hypot(known.StandardUncertainty, reach)),
                SignalAt(pooled, lineDn2.Value, allLinesDn2),
                Math.Sqrt(lineDn2.Value) / pooled[NoiseParameter.GainDnPerElectron],
                areRows)
            : null;
    }

    /// <summary>The positive root of PRNU²·S² + K·S = 100·σ_line² − σ_pixel²(0); NaN where there is none.</summary>
    private static double SignalAt(NoiseModel model, double lineDn2, double allLinesDn2)
    {
        double pixel = model.TotalVarianceAt(0) - Math.Max(0, allLinesDn2);
        double left = (PatchPixels * lineDn2) - pixel;
        double gain = model[NoiseParameter.GainDnPerElectron];
        double prnu = Math.Max(0, model.PrnuSquare);

        // Written so that it holds for a PRNU of zero too.
        return left > 0 ? 2 * left / (gain + Math.Sqrt((gain * gain) + (4 * prnu * left))) : double.NaN;
    }
}
