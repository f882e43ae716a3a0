namespace SensorLab.Pixels.Planes;

/// <summary>Deals a mosaic's row out to the planes of its pattern, in halves and thirds as long as their number can be divided: both go many photosites at a time.</summary>
/// <param name="width">Photosites of a row.</param>
internal sealed class RowDealer(int width)
{
    /// <summary>Halves of the row, quarters of it, and so on: less than two rows in all.</summary>
    private readonly ushort[] _parts = new ushort[2 * width];

    /// <summary>Deals a row out.</summary>
    /// <param name="row">Photosites, a whole number of repeats.</param>
    /// <param name="planes">The planes, one a column of the repeat.</param>
    /// <param name="frame">Which frame's bands take them.</param>
    /// <param name="bandRow">The bands' row.</param>
    /// <returns>All bits that any of the values has.</returns>
    public ushort Deal(ReadOnlySpan<ushort> row, ReadOnlySpan<PlaneAccumulator> planes, int frame, int bandRow)
    {
        if (planes.Length == 1)
        {
            return PlaneSplitter.Copy(row, planes[0].BandOf(frame).Row(bandRow));
        }

        if (planes.Length == 2)
        {
            return PlaneSplitter.Split(row, planes[0].BandOf(frame).Row(bandRow), planes[1].BandOf(frame).Row(bandRow));
        }

        if (planes.Length % 2 != 0)
        {
            DealPart(row, planes, 0, 1, frame, bandRow, 0);
            return PlaneSplitter.BitsOf(row);
        }

        int half = row.Length / 2;
        Span<ushort> even = _parts.AsSpan(0, half);
        Span<ushort> odd = _parts.AsSpan(half, half);
        ushort bits = PlaneSplitter.Split(row, even, odd);
        DealPart(even, planes, 0, 2, frame, bandRow, row.Length);
        DealPart(odd, planes, 1, 2, frame, bandRow, row.Length);
        return bits;
    }

    /// <summary>Deals out what belongs to every n-th plane.</summary>
    private void DealPart(ReadOnlySpan<ushort> part, ReadOnlySpan<PlaneAccumulator> planes, int first, int step, int frame, int bandRow, int free)
    {
        int count = planes.Length / step;
        if (count == 2)
        {
            PlaneSplitter.Split(part, planes[first].BandOf(frame).Row(bandRow), planes[first + step].BandOf(frame).Row(bandRow));
        }
        else if (count == 3)
        {
            PlaneSplitter.SplitInThree(part, planes[first].BandOf(frame).Row(bandRow), planes[first + step].BandOf(frame).Row(bandRow), planes[first + (2 * step)].BandOf(frame).Row(bandRow));
        }
        else if (count % 2 == 0)
        {
            int half = part.Length / 2;
            Span<ushort> even = _parts.AsSpan(free, half);
            Span<ushort> odd = _parts.AsSpan(free + half, half);
            PlaneSplitter.Split(part, even, odd);
            DealPart(even, planes, first, 2 * step, frame, bandRow, free + part.Length);
            DealPart(odd, planes, first + step, 2 * step, frame, bandRow, free + part.Length);
        }
        else
        {
            for (int i = 0; i < count; i++)
            {
                PlaneSplitter.Gather(part[i..], count, planes[first + (i * step)].BandOf(frame).Row(bandRow));
            }
        }
    }
}
