namespace SensorLab.Pixels.Planes;

/// <summary>Puts the neighbour after next in the place of lines that are kept out of a channel.</summary>
/// <remarks>Not the nearest one: two equal neighbours would pass for filtered raw data. A line without such a neighbour keeps its values.</remarks>
/// <param name="Rows">Rows of the channel's plane in the region.</param>
/// <param name="Columns">Columns of it.</param>
internal sealed record LineFiller(IReadOnlySet<int> Rows, IReadOnlyList<int> Columns)
{
    /// <summary>How far the neighbour lies; less than the rows that are taken in at once.</summary>
    private const int Distance = 2;

    public static LineFiller None { get; } = new(new HashSet<int>(), []);

    /// <summary>Fills what a row that was just read allows to.</summary>
    /// <param name="band">The band that holds the row.</param>
    /// <param name="planeRow">The row in the channel's plane.</param>
    /// <param name="bandRow">The same in the band.</param>
    public void Fill(PlaneBand band, int planeRow, int bandRow)
    {
        Span<ushort> own = band.Row(bandRow);
        foreach (int column in Columns)
        {
            int source = column >= Distance && !Columns.Contains(column - Distance) ? column - Distance : column + Distance;
            if (source < own.Length)
            {
                own[column] = own[source];
            }
        }

        if (Rows.Count == 0)
        {
            return;
        }

        if (Rows.Contains(planeRow))
        {
            if (bandRow >= Distance)
            {
                band.Row(bandRow - Distance).CopyTo(own);
            }
        }
        else if (bandRow is >= Distance and < 2 * Distance && Rows.Contains(planeRow - Distance))
        {
            own.CopyTo(band.Row(bandRow - Distance));
        }
    }
}
