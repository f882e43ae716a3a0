using SensorLab.Measurement.Levels;

namespace SensorLab.Measurement.Model;

/// <summary>What a row of an ISO's fit observes.</summary>
internal enum IsoRowKind
{
    Black,
    LitShift,
    RowLines,
    ColumnLines,
    Variance,
    Intercept,
    PixelPattern,
    RowPattern,
    ColumnPattern,
    DarkPattern,
    Bend,
}

/// <summary>One observation of an ISO's fit.</summary>
/// <param name="Kind">What it observes.</param>
/// <param name="Channel">Index of its channel.</param>
/// <param name="Level">Its level; null where it is of several.</param>
/// <param name="Misfit">Observed less expected, in its own unit.</param>
/// <param name="Weighed">The variance that its weight goes by, in that unit squared.</param>
/// <param name="OwnVariance">The variance of its error that it shares with no other channel.</param>
/// <param name="Slopes">By how much what is expected moves with each parameter, by the parameter's place.</param>
internal sealed record IsoRow(IsoRowKind Kind, int Channel, ObservedLevel? Level, double Misfit, double Weighed, double OwnVariance, (int Place, double Slope)[] Slopes)
{
    /// <summary>Of a variance: what noise alone makes of it, signals known.</summary>
    public double NoiseVariance { get; init; }
}
