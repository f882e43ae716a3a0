namespace SensorLab.Measurement.Black;

/// <summary>How the means of dark frames scatter, channels on the mean.</summary>
/// <param name="RangeDn">The largest difference of two frames in DN.</param>
/// <param name="Frames">The frames.</param>
/// <param name="ExcessDn2">Variance beyond noise in DN², 0 or more.</param>
/// <param name="Deviations">How far beyond chance the scatter is, in standard deviations.</param>
internal sealed record BlackScatter(double RangeDn, int Frames, double ExcessDn2, double Deviations)
{
    /// <summary>
    /// Standard deviations beyond which black drifts: a scatter that stays below moves black by less than three standard
    /// uncertainties, while to take noise for drift doubles them.
    /// </summary>
    public const double Threshold = 5;

    /// <summary>A fifth of what black may be off.</summary>
    private const double SmallestUncertaintyDn = 0.01;

    /// <summary>Whether black drifts.</summary>
    public bool IsDrift => Deviations > Threshold;

    /// <summary>Whether it drifts so that it counts among what black may be off.</summary>
    public bool Matters => IsDrift && Math.Sqrt(ExcessDn2 / Frames) > SmallestUncertaintyDn;
}
