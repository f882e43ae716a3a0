namespace SensorLab.Profiles.Placement;

/// <summary>What to dial in on another body's meter so that both bodies keep the same room above middle grey.</summary>
/// <param name="Iso">The ISO.</param>
/// <param name="CompensationEv">Exposure compensation on the other body: positive for more exposure. Whether the meters' own uncertainty is in it, its maker says.</param>
/// <param name="NearestThirdEv">The nearest third of a stop, which is what most bodies offer.</param>
public sealed record DialIn(int Iso, Figure CompensationEv, double NearestThirdEv)
{
    /// <summary>From the difference in room above grey: the body with more of it is brought up by the difference.</summary>
    /// <param name="iso">The ISO.</param>
    /// <param name="differenceEv">The other body's room above grey less the first one's; an estimate.</param>
    /// <exception cref="ArgumentException">The difference is a bound.</exception>
    public static DialIn Of(int iso, Figure differenceEv) => differenceEv.Value is { } value
        ? new DialIn(iso, differenceEv, ThirdStopScale.Nearest(value))
        : throw new ArgumentException("What to dial in follows from an estimate, not from a bound.", nameof(differenceEv));

    /// <summary>
    /// Between two bodies at one ISO and under the light of their sets, the uncertainty of both sensors and both meters in
    /// it: a tone that either body meters at p EV lies at p + compensation on the other, equally far from its clip.
    /// </summary>
    /// <returns>Null where either body's room is a bound or was not measured.</returns>
    internal static DialIn? Between(EvAxis first, EvAxis other) =>
        first.AboveEv is { Value: not null } own && other.AboveEv is { Value: not null } theirs ? Of(other.Iso, theirs.Plus(own.Negated())!) : null;
}
