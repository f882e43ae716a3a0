using SensorLab.Profiles;

namespace SensorLab.Reports.Charts;

/// <summary>A figure on the EV axis: middle grey at 0, headroom positive, shadow negative; with the interval that a second set would respect, where it has one.</summary>
/// <param name="Ev">The estimate, or the bound.</param>
/// <param name="Lower95">Lower end of the 95 % interval; the bound itself for a bound.</param>
/// <param name="Upper95">Upper end of the 95 % interval; the bound itself for a bound.</param>
/// <param name="Open">Where a bound leaves the truth open.</param>
internal readonly record struct EvMark(double Ev, double Lower95, double Upper95, OpenSide Open)
{
    /// <summary>Whether only a bound is known.</summary>
    public bool IsBound => Open != OpenSide.None;

    /// <summary>The longer half of the 95 % interval in EV; 0 for a bound.</summary>
    public double HalfWidthEv => Math.Max(Upper95 - Ev, Ev - Lower95);

    /// <summary>A figure that counts stops above middle grey.</summary>
    /// <param name="figure">The figure in EV; null where absent.</param>
    /// <returns>The mark, or null where the figure is absent.</returns>
    public static EvMark? Above(Figure? figure) => figure?.OfBody() switch
    {
        { Value: { } value } body => new EvMark(value, body.Lower95 ?? value, body.Upper95 ?? value, OpenSide.None),
        { AtLeast: { } bound } => new EvMark(bound, bound, bound, OpenSide.Highlight),
        { AtMost: { } bound } => new EvMark(bound, bound, bound, OpenSide.Shadow),
        _ => null,
    };

    /// <summary>A figure that counts stops below middle grey.</summary>
    /// <param name="figure">The figure in EV; null where absent.</param>
    /// <returns>The mark, or null where the figure is absent.</returns>
    public static EvMark? Below(Figure? figure) => figure?.OfBody() switch
    {
        { Value: { } value } body => new EvMark(-value, -(body.Upper95 ?? value), -(body.Lower95 ?? value), OpenSide.None),
        { AtLeast: { } bound } => new EvMark(-bound, -bound, -bound, OpenSide.Shadow),
        { AtMost: { } bound } => new EvMark(-bound, -bound, -bound, OpenSide.Highlight),
        _ => null,
    };
}
