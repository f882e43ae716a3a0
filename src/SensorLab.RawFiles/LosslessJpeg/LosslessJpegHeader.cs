namespace SensorLab.RawFiles.LosslessJpeg;

/// <summary>What stands before the entropy-coded data of a lossless JPEG image.</summary>
/// <remarks>ITU-T T.81, B.2.2 (frame header) and B.2.3 (scan header).</remarks>
internal sealed record LosslessJpegHeader
{
    /// <summary>Bits a sample, 2 to 16.</summary>
    public required int Precision { get; init; }

    /// <summary>Lines of the image.</summary>
    public required int Lines { get; init; }

    /// <summary>Samples a line of one component.</summary>
    public required int SamplesPerLine { get; init; }

    /// <summary>The table of each component, in the order in which their samples alternate; 1 to 4.</summary>
    public required IReadOnlyList<HuffmanTable> Tables { get; init; }

    /// <summary>The predictor, 1 to 7 (table H.1).</summary>
    public required int Predictor { get; init; }

    /// <summary>Low bits left out by the point transform.</summary>
    public required int PointTransform { get; init; }

    /// <summary>Lines from one restart marker to the next, 0 without restarts.</summary>
    public required int LinesPerRestart { get; init; }

    /// <summary>Where the entropy-coded data start in the file.</summary>
    public required long DataOffset { get; init; }

    /// <summary>Components whose samples alternate.</summary>
    public int Components => Tables.Count;

    /// <summary>Samples of a line over all components.</summary>
    public int LineLength => SamplesPerLine * Components;
}
