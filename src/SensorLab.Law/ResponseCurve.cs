namespace SensorLab.Law;

/// <summary>How recorded signal follows exposure where the response bends: S = x/(1 + b·x), x the signal that a straight response would give.</summary>
/// <remarks>
/// One parameter, the first that any smooth response leaves after its slope. x is in DN of the response without light,
/// so that the gain is the small-signal gain and ratios of x are ratios of exposures. A response that falls off with
/// the signal's square differs from this one, fitted to it, by less than a tenth of what is missing at saturation.
/// </remarks>
/// <param name="BendPerDn">b in 1/DN: above 0 where bright signals are compressed; 0 for a straight response.</param>
public readonly record struct ResponseCurve(double BendPerDn)
{
    /// <summary>The signal that a straight response would give, in DN; NaN beyond the curve's end.</summary>
    /// <param name="signalDn">Recorded signal above black in DN.</param>
    public double LinearOf(double signalDn) => 1 - (BendPerDn * signalDn) is var rest && rest > 0 ? signalDn / rest : double.NaN;

    /// <summary>The recorded signal in DN.</summary>
    /// <param name="linearDn">The signal that a straight response would give, in DN.</param>
    public double RecordedOf(double linearDn) => linearDn / (1 + (BendPerDn * linearDn));

    /// <summary>Slope of recorded signal against exposure, over the slope without light.</summary>
    /// <param name="signalDn">Recorded signal above black in DN.</param>
    public double SlopeAt(double signalDn) => (1 - (BendPerDn * signalDn)) * (1 - (BendPerDn * signalDn));

    /// <summary>The signal that shot noise of this strength has under a straight response, in DN: x times the squared slope.</summary>
    /// <param name="signalDn">Recorded signal above black in DN.</param>
    public double ShotSignalOf(double signalDn) => signalDn * Math.Pow(1 - (BendPerDn * signalDn), 3);

    /// <summary>By how much that signal moves with the recorded one.</summary>
    /// <param name="signalDn">Recorded signal above black in DN.</param>
    public double ShotSlopeAt(double signalDn) => SlopeAt(signalDn) * (1 - (4 * BendPerDn * signalDn));

    /// <summary>By how much that signal moves with the bend, in DN².</summary>
    /// <param name="signalDn">Recorded signal above black in DN.</param>
    public double ShotSlopeByBendDn2(double signalDn) => -3 * signalDn * signalDn * SlopeAt(signalDn);

    /// <summary>What a relative difference of response amounts to in recorded DN: x times the slope.</summary>
    /// <param name="signalDn">Recorded signal above black in DN.</param>
    public double ResponsiveSignalOf(double signalDn) => signalDn * (1 - (BendPerDn * signalDn));
}
