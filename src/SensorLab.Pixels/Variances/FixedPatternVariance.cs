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
    /// <param name="temporalBlocksDn2">Its pixel part, block by block, in DN².</param>
    public static VarianceParts Of(PlaneMoments channel, TemporalVariance temporal, IReadOnlyList<double> temporalBlocksDn2)
    {
        VarianceParts parts = temporal.Parts;
        double frames = channel.Frames.Count;
        (double meanSquare, double noise, double degrees) = PooledBlocks(channel, [.. temporalBlocksDn2.Select(t => t / frames)]);
        double pixel = meanSquare - noise;
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

    /// <summary>
    /// Mean square of the frames' mean, the noise in it and the degrees of freedom of both, of all blocks but those that hold
    /// dust or structure. Those stand out by what noise leaves over: noise itself may differ over the field.
    /// </summary>
    private static (double MeanSquare, double Noise, double Degrees) PooledBlocks(PlaneMoments channel, double[] noise)
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
        double pattern = Ranked.MedianOf([.. meanSquares.Zip(noise, (all, own) => all - own)]);
        (double MeanSquare, double Noise, double Degrees) sum = (0, 0, 0);
        for (int block = 0; block < channel.Blocks; block++)
        {
            double own = channel.DegreesOfFreedomOf(block);
            double expected = Math.Max(0, pattern + noise[block]);
            double deviation = Math.Sqrt(2 / own) * double.Hypot(expected, noise[block] / Math.Sqrt(frames - 1));
            if (meanSquares[block] <= expected + (Significance.StrayBlock * deviation))
            {
                sum = (sum.MeanSquare + (meanSquares[block] * own), sum.Noise + (noise[block] * own), sum.Degrees + own);
            }
        }

        return (sum.MeanSquare / sum.Degrees, sum.Noise / sum.Degrees, sum.Degrees);
    }
}
