using SensorLab.Law;
using SensorLab.Pixels.Kernels;
using SensorLab.Pixels.Planes;
using SensorLab.Profiles;

namespace SensorLab.Pixels.Variances;

/// <summary>The fixed-pattern variance of a level, split into pixel, row and column parts as EMVA 1288 R4 does, shading removed.</summary>
/// <remarks>
/// The pixel part comes from blocks whose row and column means are taken out: a high-pass that passes
/// (1 − 1/rows)(1 − 1/columns) of white noise, which its degrees of freedom undo exactly. The row and column parts come
/// from second differences of the line means, which a smooth field does not reach, and are what they are where two readouts
/// take lines by turns.
/// </remarks>
internal static class FixedPatternVariance
{
    /// <summary>Fixed-pattern variance parts of a channel.</summary>
    /// <param name="channel">Moments of two frames or more.</param>
    /// <param name="temporal">The temporal variance of the same channel.</param>
    public static VarianceParts Of(PlaneMoments channel, TemporalVariance temporal)
    {
        VarianceParts parts = temporal.Parts;
        double frames = channel.Frames.Count;
        (double meanSquare, double degrees) = PooledBlocks(channel);
        double pixel = meanSquare - (parts.PixelDn2 / frames);
        double pixelUncertainty = double.Hypot(meanSquare * Math.Sqrt(2 / degrees), parts.PixelUncertaintyDn2 / frames);
        LineMeans lines = LineMeans.Of(channel);
        LineMeansVariance row = LineMeansVariance.OfLinesByTurns(lines.RowsDn);
        LineMeansVariance column = LineMeansVariance.OfLinesByTurns(lines.ColumnsDn);
        return new VarianceParts
        {
            PixelDn2 = pixel,
            PixelUncertaintyDn2 = pixelUncertainty,
            RowDn2 = row.Value - (meanSquare / channel.Columns) - (temporal.NarrowRowDn2 / frames),
            RowUncertaintyDn2 = double.Hypot(row.StandardUncertainty, parts.RowUncertaintyDn2 / frames),
            ColumnDn2 = column.Value - (meanSquare / channel.Rows) - (temporal.NarrowColumnDn2 / frames),
            ColumnUncertaintyDn2 = double.Hypot(column.StandardUncertainty, parts.ColumnUncertaintyDn2 / frames),
        };
    }

    private static (double MeanSquare, double Degrees) PooledBlocks(PlaneMoments channel)
    {
        double frames = channel.Frames.Count;
        double[] meanSquares = new double[channel.Blocks];
        foreach (FrameMoments frame in channel.Frames)
        {
            for (int block = 0; block < meanSquares.Length; block++)
            {
                double squares = frame.BlockSquares[block] + (2 * frame.BlockProducts[block]);
                meanSquares[block] += squares / (frames * frames) / channel.DegreesOfFreedomOf(block);
            }
        }

        // The frames' sum has squares of 0 or more; what is left of it where nothing varies is rounding of either sign.
        meanSquares = Array.ConvertAll(meanSquares, square => Math.Max(0, square));
        double median = Ranked.MedianOf([.. meanSquares]);
        double sum = 0;
        double degrees = 0;
        for (int block = 0; block < channel.Blocks; block++)
        {
            double own = channel.DegreesOfFreedomOf(block);
            if (meanSquares[block] <= median * (1 + (Significance.StrayBlock * Math.Sqrt(2 / own))))
            {
                sum += meanSquares[block] * own;
                degrees += own;
            }
        }

        return (sum / degrees, degrees);
    }
}
