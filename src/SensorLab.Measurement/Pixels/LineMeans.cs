namespace SensorLab.Measurement.Pixels;

/// <summary>The mean of each line of one channel over all frames of a level, in DN.</summary>
/// <param name="RowsDn">Mean along each row.</param>
/// <param name="ColumnsDn">Mean down each column.</param>
internal sealed record LineMeans(double[] RowsDn, double[] ColumnsDn)
{
    /// <summary>The means of a channel's lines.</summary>
    public static LineMeans Of(ChannelMoments channel) => new(
        Means(channel, f => f.RowSums, channel.Columns),
        Means(channel, f => f.ColumnSums, channel.Rows));

    /// <summary>The mean of lines, or of a part of each.</summary>
    /// <param name="channel">The channel.</param>
    /// <param name="sums">A frame's sums, one a line.</param>
    /// <param name="depth">Pixels by which a sum is divided.</param>
    public static double[] Means(ChannelMoments channel, Func<FrameMoments, double[]> sums, int depth)
    {
        double[] means = new double[sums(channel.Frames[0]).Length];
        foreach (FrameMoments frame in channel.Frames)
        {
            double[] own = sums(frame);
            for (int i = 0; i < means.Length; i++)
            {
                means[i] += own[i] / depth / channel.Frames.Count;
            }
        }

        return means;
    }
}
