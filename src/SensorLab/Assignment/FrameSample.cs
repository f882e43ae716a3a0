using SensorLab.Frames;

namespace SensorLab.Assignment;

/// <summary>What a small sample of a frame's photosites shows: bands of rows, cut into cells.</summary>
public sealed record FrameSample
{
    /// <summary>Cells side by side.</summary>
    internal const int Columns = 12;

    /// <summary>Cells of a dark frame vary by a tenth of a photosite's noise; what a picture shows is as large as its own differences.</summary>
    private const double EvenShare = 0.4;

    /// <summary>The channels, in the order of the cells' values.</summary>
    public required IReadOnlyList<SensorChannel> Channels { get; init; }

    /// <summary>Mean of each channel in DN, black included.</summary>
    public required IReadOnlyList<double> MeanDn { get; init; }

    /// <summary>Standard deviation of one photosite of green (or of the only channel) about its neighbours, in DN.</summary>
    public required double PixelNoiseDn { get; init; }

    /// <summary>Photosites of green (or of the only channel) in the sample.</summary>
    public required int Pixels { get; init; }

    /// <summary>Share of all photosites at or above the level that the file declares as white.</summary>
    public required double WhiteShare { get; init; }

    /// <summary>Means of green (or of the only channel) over the cells in DN, band by band.</summary>
    public required IReadOnlyList<double> CellsDn { get; init; }

    /// <summary>Mean of green (the two pooled), or of the only channel, in DN.</summary>
    public double GreenDn => Channels.Count == 1 ? MeanDn[0] : Channels.Zip(MeanDn).Where(c => c.First is SensorChannel.G1 or SensorChannel.G2).Average(c => c.Second);

    /// <summary>Whether the cells vary by no more than a frame without light lets them: less than noise and glow do.</summary>
    internal bool IsEven
    {
        get
        {
            double mean = CellsDn.Average();
            return Math.Sqrt(CellsDn.Average(c => (c - mean) * (c - mean))) <= EvenShare * PixelNoiseDn;
        }
    }

    /// <summary>Mean of a channel in DN; null where the sensor does not have it.</summary>
    /// <param name="channel">The channel.</param>
    public double? Of(SensorChannel channel)
    {
        int at = Channels.Index().Where(c => c.Item == channel).Select(c => c.Index).DefaultIfEmpty(-1).First();
        return at < 0 ? null : MeanDn[at];
    }
}
