using System.Runtime.Intrinsics;

namespace SensorLab.Pixels.Planes;

/// <summary>The mean of each line over all frames of a level, in DN: of a plane, or of the planes of a channel together, one line a repeat then.</summary>
/// <param name="RowsDn">Mean along each row.</param>
/// <param name="ColumnsDn">Mean down each column.</param>
internal sealed record LineMeans(double[] RowsDn, double[] ColumnsDn)
{
    /// <summary>The means of a plane's lines.</summary>
    public static LineMeans Of(PlaneMoments plane) => new(
        Means(plane, f => f.RowSums, plane.Columns),
        Means(plane, f => f.ColumnSums, plane.Rows));

    /// <summary>The mean over some planes of one size.</summary>
    public static LineMeans Of(IReadOnlyList<PlaneMoments> planes)
    {
        LineMeans[] each = [.. planes.Select(Of)];
        return each is [var alone] ? alone : new LineMeans(Mean([.. each.Select(e => e.RowsDn)]), Mean([.. each.Select(e => e.ColumnsDn)]));
    }

    /// <summary>The mean of lines, or of a part of each.</summary>
    /// <param name="plane">The plane.</param>
    /// <param name="sums">A frame's sums, one a line.</param>
    /// <param name="depth">Pixels by which a sum is divided.</param>
    public static double[] Means(PlaneMoments plane, Func<FrameMoments, double[]> sums, int depth)
    {
        double[] means = new double[sums(plane.Frames[0]).Length];
        foreach (FrameMoments frame in plane.Frames)
        {
            AddQuotients(means, sums(frame), depth, plane.Frames.Count);
        }

        return means;
    }

    private static void AddQuotients(Span<double> means, ReadOnlySpan<double> sums, double depth, double frames)
    {
        int i = 0;
        for (; i <= means.Length - Vector256<double>.Count; i += Vector256<double>.Count)
        {
            (Vector256.Create<double>(means[i..]) + (Vector256.Create(sums[i..]) / Vector256.Create(depth) / Vector256.Create(frames))).CopyTo(means[i..]);
        }

        for (; i < means.Length; i++)
        {
            means[i] += sums[i] / depth / frames;
        }
    }

    private static double[] Mean(double[][] planes) => [.. Enumerable.Range(0, planes[0].Length).Select(i => planes.Average(p => p[i]))];
}
