namespace SensorLab.Simulation.Writing;

/// <summary>How lossless JPEG is used in a DNG.</summary>
public sealed record LosslessJpegForm
{
    /// <summary>The predictor: 1 to 7.</summary>
    public int Predictor { get; init; } = 1;

    /// <summary>Components into which the columns are dealt in turn: 1, 2 or 4; the width of a strip or tile is a multiple of it.</summary>
    public int Components { get; init; } = 2;

    /// <summary>Whether all components share one Huffman table.</summary>
    public bool HasOneTable { get; init; }

    /// <summary>Rows from one restart to the next; null for no restarts.</summary>
    public int? RestartRows { get; init; }
}
