using SensorLab.Law;

namespace SensorLab.Pixels.Neighbours;

/// <summary>How the temporal noise of neighbours goes together, inside a channel or over the channels; white noise has none.</summary>
/// <param name="Sides">Correlation of a site with the four beside, above and below it.</param>
/// <param name="Around">Correlation of a site with all eight around it.</param>
internal sealed record NoiseNeighbours(Estimate Sides, Estimate Around)
{
    /// <summary>Correlation of a site with the two beside it in its row; null where directions were not told apart.</summary>
    public Estimate? Along { get; init; }

    /// <summary>Correlation of a site with those above and below it; null where directions were not told apart.</summary>
    public Estimate? Across { get; init; }

    /// <summary>Correlation of sites of one colour that touch; null where none do.</summary>
    public Estimate? Touching { get; init; }

    /// <summary>Correlation of its other neighbours of one colour; null where they were not told apart.</summary>
    public Estimate? Apart { get; init; }

    /// <summary>Correlation of a site with the two a whole repeat away in its row, where others of its colour are nearer; null where none are.</summary>
    public Estimate? RepeatAlong { get; init; }

    /// <summary>The same in its column.</summary>
    public Estimate? RepeatAcross { get; init; }

    /// <summary>Correlation of a site with the four a whole repeat away; null where none of its colour are nearer.</summary>
    public Estimate? Repeats => RepeatAlong is { } along && RepeatAcross is { } across ? Estimate.WeightedMean([along, across]) : null;

    /// <summary>Writes it as bytes.</summary>
    public void Write(BinaryWriter to)
    {
        foreach (Estimate? estimate in (Estimate?[])[Sides, Around, Along, Across, Touching, Apart, RepeatAlong, RepeatAcross])
        {
            to.Write(estimate);
        }
    }

    /// <summary>Reads what <see cref="Write"/> wrote.</summary>
    public static NoiseNeighbours Read(BinaryReader from) => new(from.ReadEstimateIf() ?? default, from.ReadEstimateIf() ?? default)
    {
        Along = from.ReadEstimateIf(),
        Across = from.ReadEstimateIf(),
        Touching = from.ReadEstimateIf(),
        Apart = from.ReadEstimateIf(),
        RepeatAlong = from.ReadEstimateIf(),
        RepeatAcross = from.ReadEstimateIf(),
    };
}
