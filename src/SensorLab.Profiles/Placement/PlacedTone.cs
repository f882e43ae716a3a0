namespace SensorLab.Profiles.Placement;

/// <summary>A tone where an exposure puts it.</summary>
public sealed record PlacedTone
{
    /// <summary>EV from middle grey.</summary>
    public required double PlacedEv { get; init; }

    /// <summary>EV to saturation, sensor and meter; negative for a tone that clips.</summary>
    public Figure? HeadroomEv { get; init; }

    /// <summary>EV down to where texture ends (SNR 10), sensor and meter; negative for a tone that has sunk below it.</summary>
    public Figure? ShadowRoomEv { get; init; }

    /// <summary>What the raw file holds of it.</summary>
    public required ToneHold Holds { get; init; }

    /// <summary>What the camera's preview makes of it, the most truthful look first.</summary>
    public IReadOnlyList<PreviewPretence> Previews { get; init; } = [];

    /// <summary>Places a tone.</summary>
    /// <param name="axis">The axis of the ISO.</param>
    /// <param name="iso">The ISO's profile.</param>
    /// <param name="placedEv">EV from middle grey.</param>
    /// <param name="guardEv">The guard below saturation in EV.</param>
    internal static PlacedTone Of(EvAxis axis, IsoProfile iso, double placedEv, double guardEv) => new()
    {
        PlacedEv = placedEv,
        HeadroomEv = axis.HeadroomEv(placedEv),
        ShadowRoomEv = axis.DarkestEv(EvAxis.TextureSnr)?.Negated().Shifted(placedEv),
        Holds = HoldOf(axis, placedEv, guardEv),
        Previews = PreviewPretence.Of(axis, iso, placedEv),
    };

    private static ToneHold HoldOf(EvAxis axis, double placedEv, double guardEv)
    {
        if (axis.Clips(placedEv) is not { } clips)
        {
            return ToneHold.Unknown;
        }

        if (clips)
        {
            return ToneHold.Clipped;
        }

        Figure brightest = axis.BrightestTexturedEv(guardEv)!;
        if (placedEv > (brightest.Value ?? brightest.AtLeast))
        {
            return ToneHold.InGuard;
        }

        bool isKnown = true;
        foreach ((double snr, ToneHold hold) in new[] { (EvAxis.CleanSnr, ToneHold.Clean), (EvAxis.TextureSnr, ToneHold.Texture), (EvAxis.ToneSnr, ToneHold.ToneOnly) })
        {
            bool? reaches = Reaches(axis.DarkestEv(snr), placedEv);
            if (reaches == true)
            {
                return hold;
            }

            isKnown &= reaches is not null;
        }

        return isKnown ? ToneHold.Sunk : ToneHold.Unknown;
    }

    private static bool? Reaches(Figure? darkest, double ev) => darkest switch
    {
        { Value: { } value } => ev >= value,
        { AtMost: { } bound } when ev >= bound => true,
        { AtLeast: { } bound } when ev < bound => false,
        _ => null,
    };
}
