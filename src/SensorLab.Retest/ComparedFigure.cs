using SensorLab.Profiles;

namespace SensorLab.Retest;

/// <summary>One figure of both profiles: difference, margin, verdict.</summary>
public sealed record ComparedFigure
{
    /// <summary>Where it stands.</summary>
    public required FigureAddress Address { get; init; }

    /// <summary>As the earlier profile holds it.</summary>
    public required Figure Before { get; init; }

    /// <summary>As the later profile holds it.</summary>
    public required Figure After { get; init; }

    /// <summary>
    /// After less before in <see cref="Unit"/>, with the noise of both sets, what sets differ by, and the meter where readings
    /// or repeats tell of it. The 95 % interval is for all figures of the comparison at once, and the one the verdict goes
    /// by. A bound where one of the two is a bound; null where
    /// nothing can be said.
    /// </summary>
    public Figure? Difference { get; init; }

    /// <summary>The margin in <see cref="Unit"/>; null where none is set.</summary>
    public double? Margin { get; init; }

    /// <summary>The unit of difference and margin.</summary>
    public required MarginUnit Unit { get; init; }

    /// <summary>The verdict: the interval within the margin, beyond it, or neither.</summary>
    public required RetestVerdict Verdict { get; init; }

    /// <summary>Whether the meter's zero has a part in it.</summary>
    public bool IsMeterTied => FigureName.IsMeterTied(Address.Name);

    /// <summary>For an undecided figure, the further pairs of frames a level that would decide; null where no number would.</summary>
    public int? FurtherPairs { get; init; }

    /// <summary>Why no number of further pairs would decide; null elsewhere.</summary>
    public string? FurtherPairsReason { get; init; }
}
