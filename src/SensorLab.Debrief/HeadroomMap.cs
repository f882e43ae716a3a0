namespace SensorLab.Debrief;

/// <summary>How far each cell of a frame lies below the clip of the channel that clips first in it, and which cells are of surfaces.</summary>
/// <remarks>
/// A surface is what fills a square of three cells by three: points of light, hot pixels and thin lines do not. Brightness
/// eroded and dilated by that square (a morphological opening) takes points to their ground; what stays within a fifth of a stop of
/// itself is of a surface, and keeps its tone: a sky that brightens to the horizon is not cut there.
/// Of a surface that clips in some channels, the others tell by how much (<see cref="BeyondClip"/>).
/// </remarks>
internal sealed class HeadroomMap
{
    /// <summary>The share of its photosites from which a cell's channel is clipped.</summary>
    private const float ClippedShare = 0.5f;

    /// <summary>How much brighter than the opened map a cell of a surface may be, in EV.</summary>
    private const float SameSurfaceEv = 0.2f;

    private const float Never = float.MaxValue;

    private readonly FrameCells _cells;
    private readonly float[][] _byChannel;

    private HeadroomMap(FrameCells cells, IsoGauge gauge)
    {
        _cells = cells;
        _byChannel = [.. gauge.Clips.Select((clip, c) => Array.ConvertAll(cells.SignalsDn[c], s => (float)Math.Min(clip.HeadroomEv(s), Never)))];
        Ev = new float[cells.Count];
        IsClipped = new bool[cells.Count];
        MarkClipped();
        BoundEv = -gauge.NeutralEv.Max();
        new BeyondClip(cells, gauge, _byChannel, IsClipped).Reckon(Ev, BoundEv);
        SurfaceEv = Surfaces(Ev, cells.Columns, cells.Rows);
    }

    /// <summary>Signed stops to the clip: above 0 below it, 0 and less for what is clipped; <see cref="BoundEv"/> where every channel is.</summary>
    public float[] Ev { get; }

    /// <summary>The same of surfaces alone.</summary>
    public float[] SurfaceEv { get; }

    /// <summary>Cells of which a channel is clipped.</summary>
    public bool[] IsClipped { get; }

    /// <summary>What a cell has of which every channel clips: so far beyond the clip or further, in EV, 0 or less.</summary>
    public double BoundEv { get; }

    public static HeadroomMap Of(FrameCells cells, IsoGauge gauge) => new(cells, gauge);

    private void MarkClipped()
    {
        for (int cell = 0; cell < Ev.Length; cell++)
        {
            float least = Never;
            for (int channel = 0; channel < _byChannel.Length; channel++)
            {
                bool isClipped = _cells.ClippedShares[channel][cell] > ClippedShare;
                IsClipped[cell] |= isClipped;
                least = Math.Min(least, isClipped ? 0 : _byChannel[channel][cell]);
            }

            Ev[cell] = least;
        }
    }

    // The largest of each square of three by three, then the smallest of each: headroom is least where it is brightest.
    private static float[] Surfaces(float[] map, int columns, int rows)
    {
        float[] eroded = Squared(map, columns, rows, Math.Max);
        float[] opened = Squared(eroded, columns, rows, Math.Min);
        for (int at = 0; at < map.Length; at++)
        {
            opened[at] = opened[at] - map[at] <= SameSurfaceEv ? map[at] : opened[at];
        }

        return opened;
    }

    private static float[] Squared(float[] map, int columns, int rows, Func<float, float, float> of)
    {
        float[] across = new float[map.Length];
        for (int row = 0; row < rows; row++)
        {
            for (int x = 0; x < columns; x++)
            {
                int at = (row * columns) + x;
                float value = map[at];
                value = x > 0 ? of(value, map[at - 1]) : value;
                across[at] = x + 1 < columns ? of(value, map[at + 1]) : value;
            }
        }

        float[] down = new float[map.Length];
        for (int at = 0; at < map.Length; at++)
        {
            float value = across[at];
            value = at >= columns ? of(value, across[at - columns]) : value;
            down[at] = at + columns < map.Length ? of(value, across[at + columns]) : value;
        }

        return down;
    }
}
