using SensorLab.Law;

namespace SensorLab.Sets;

/// <summary>What one lit frame tells of the light that it was shot in.</summary>
/// <param name="Order">Its place in time.</param>
/// <param name="ExposureSeconds">Its exposure time in seconds; equal times are equal settings.</param>
/// <param name="SignalDn">Its mean signal in DN above black.</param>
/// <param name="UnsteadyDn">By how much black itself may be off, in DN, above 0.</param>
/// <param name="RangeDn">The signal that more light does not move, in DN.</param>
/// <param name="ClipsSome">Whether some of its photosites clip.</param>
public sealed record LightReading(int Order, double ExposureSeconds, double SignalDn, double UnsteadyDn, double RangeDn, bool ClipsSome)
{
    /// <summary>A light is told where black moves it by less than this, in EV.</summary>
    private const double MostSlackEv = 0.1;

    /// <summary>No black is off by this share of the range, be it declared or measured: some fifty codes of 14 bits.</summary>
    private const double BlackShare = 0.0035;

    /// <summary>Whether more light would not be seen in full.</summary>
    public bool IsClipped => ClipsSome || SignalDn > SignalShare.WellBelowClip * RangeDn;

    /// <summary>Whether no signal is seen.</summary>
    public bool IsDark => SignalDn <= 2 * UnsteadyDn;

    /// <summary>Whether the light is told.</summary>
    public bool IsTold => !IsClipped && SlackEv <= MostSlackEv;

    /// <summary>log2 of signal per second; for a clipped frame the least that it can be, for a dark one the most.</summary>
    public double LightEv => Math.Log2((ClipsSome ? Math.Max(SignalDn, SignalShare.WellBelowClip * RangeDn) : Math.Max(SignalDn, 3 * UnsteadyDn)) / ExposureSeconds);

    /// <summary>How far black may move <see cref="LightEv"/>, in EV.</summary>
    public double SlackEv => IsDark ? double.PositiveInfinity : Math.Log2(1 + (UnsteadyDn / SignalDn));

    /// <summary>The least light that it can have been shot in, wherever black is: log2 of signal per second; minus infinity where black could be all of it.</summary>
    public double LeastEv => Math.Log2(Math.Max(0, SignalDn - (BlackShare * RangeDn)) / ExposureSeconds);

    /// <summary>The most light that it can have been shot in, wherever black is: log2 of signal per second.</summary>
    public double MostEv => Math.Log2((SignalDn + (BlackShare * RangeDn)) / ExposureSeconds);

    /// <summary>Whether the frame may have been shot in a light.</summary>
    /// <param name="lightEv">log2 of the light.</param>
    /// <param name="toleranceEv">How far off it may be.</param>
    public bool MayBeAt(double lightEv, double toleranceEv)
    {
        if (IsClipped)
        {
            return lightEv + toleranceEv >= LightEv;
        }

        return IsDark ? lightEv - toleranceEv <= LightEv : Math.Abs(lightEv - LightEv) <= toleranceEv + SlackEv;
    }
}
