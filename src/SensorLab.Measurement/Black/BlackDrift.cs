using SensorLab.Law;

namespace SensorLab.Measurement.Black;

/// <summary>What a black that moves leaves in levels and in black itself, in all channels alike: what may be there, and not only what is beyond doubt.</summary>
/// <param name="FrameDn2">Variance of one frame's black in DN².</param>
/// <param name="LevelDn2">Variance of a level's black beside its frames', in DN².</param>
/// <param name="BlackDn2">Variance that all channels' black shares, dark signal that cannot be told from none included, in DN².</param>
/// <param name="DegreesOfFreedom">Of these variances: they rest on the scatter of few dark frames.</param>
public readonly record struct BlackDrift(double FrameDn2, double LevelDn2, double BlackDn2, double DegreesOfFreedom)
{
    /// <summary>A black that stands still.</summary>
    public static BlackDrift None { get; } = new(0, 0, 0, double.PositiveInfinity);

    /// <summary>By how much black lay higher in the lit frames than in the dark ones, on the mean, in DN; 0 where it is not fitted.</summary>
    public double LitShiftDn { get; init; }

    /// <summary>Variance in DN² of <see cref="LitShiftDn"/> as far as dark frames foretell it: a black that follows the clock lies elsewhere in all lit frames alike.</summary>
    /// <param name="shiftDn">The shift so far in DN.</param>
    /// <remarks>
    /// A few dark frames, shot one after the other, tell little of where black went afterwards: their scatter s is that of a
    /// Student distribution with their degrees of freedom ν. A normal one weighs a shift x as it does where its variance is
    /// s²·(ν + x²/s²)/(ν + 1); it is never taken for less than s².
    /// </remarks>
    public double OfLitShiftDn2At(double shiftDn)
    {
        double variance = FrameDn2 + LevelDn2;
        return double.IsFinite(DegreesOfFreedom)
            ? Math.Max(variance, ((DegreesOfFreedom * variance) + (shiftDn * shiftDn)) / (DegreesOfFreedom + 1))
            : variance;
    }

    /// <summary>The same with a shift of the lit frames that the dark frames' scatter makes likely, and none beside: one that lies far out may be no shift at all, but noise that dark frames alone have.</summary>
    internal BlackDrift WithForetoldShift() => LitShiftDn * LitShiftDn > Significance.Foretold * Significance.Foretold * (FrameDn2 + LevelDn2) ? this with { LitShiftDn = 0 } : this;

    /// <summary>Variance in DN² of a level's mean.</summary>
    /// <param name="frames">The level's frames.</param>
    public double OfMean(double frames) => (FrameDn2 / frames) + LevelDn2;
}
