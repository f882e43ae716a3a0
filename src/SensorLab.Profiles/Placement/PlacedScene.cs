namespace SensorLab.Profiles.Placement;

/// <summary>What a sensor profile says to <see cref="SceneReadings"/>: the exposure to set, and what becomes of every tone there.</summary>
/// <remarks>
/// The advice is the most light that the bright end's texture bears, since raw files are lightened and darkened afterwards
/// and shadows only gain; where the scene is too long, the bright end is held. Exposures are given as the light that they
/// put at middle grey: more is a darker picture.
/// </remarks>
public sealed record PlacedScene
{
    /// <summary>The exposure with the most light that holds the bright end's texture; null where no bright end is known.</summary>
    public double? MostLightEv { get; init; }

    /// <summary>The exposure with the least light that holds the dark end's texture; null where no dark end was read, or its limit is not known.</summary>
    public double? LeastLightEv { get; init; }

    /// <summary>
    /// The exposure to set: <see cref="MostLightEv"/> to the next third of a stop with less light; where that is not known,
    /// <see cref="LeastLightEv"/> to the next with more. Null where neither is.
    /// </summary>
    public double? AdvisedEv { get; init; }

    /// <summary>The exposure that the tones are placed at: the one asked for, else the advised; null where there is neither.</summary>
    public double? ExposureEv { get; init; }

    /// <summary>Whether both ends fit with texture; null without a dark end, and where a bound leaves it open.</summary>
    public bool? Fits { get; init; }

    /// <summary>The room left over, negative where the scene is too long; the meter is not in it, since both ends hang on one zero.</summary>
    public Figure? RoomEv { get; init; }

    /// <summary>The bright end; null without an exposure.</summary>
    public PlacedTone? Bright { get; init; }

    /// <summary>The dark end; null without an exposure, and where it was not read.</summary>
    public PlacedTone? Dark { get; init; }

    /// <summary>Further tones, as they were asked; empty without an exposure.</summary>
    public IReadOnlyList<PlacedTone> Tones { get; init; } = [];

    /// <summary>Where the camera's warnings appear, the most truthful look first.</summary>
    public IReadOnlyList<PlacedLook> Looks { get; init; } = [];

    /// <summary>Places a scene.</summary>
    /// <param name="profile">The sensor profile.</param>
    /// <param name="readings">The readings.</param>
    /// <exception cref="IsoUnmeasuredException">The ISO was not measured; its neighbours are named.</exception>
    /// <exception cref="ArgumentException">The profile has no light of that name.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, the guard negative, or the dark end brighter than the bright one.</exception>
    public static PlacedScene Of(SensorProfile profile, SceneReadings readings)
    {
        RequireFinite([readings.BrightEv, readings.ExposureOriginEv, readings.DarkEv ?? 0, readings.ExposureEv ?? 0, .. readings.ToneEvs]);
        EvAxis axis = EvAxis.Of(profile, readings.Iso, readings.Light);
        IsoProfile iso = profile.IsoProfiles.First(p => p.Iso == readings.Iso);
        SceneFit fit = axis.Fit(readings.DarkEv ?? readings.BrightEv, readings.BrightEv, readings.GuardEv);
        double? most = -fit.HighestShiftEv;
        double? least = readings.DarkEv is null ? null : -fit.LowestShiftEv;
        double origin = readings.ExposureOriginEv;
        double? advised = most is { } m ? ThirdStopScale.Ceiling(m - origin) + origin
            : least is { } l ? ThirdStopScale.Floor(l - origin) + origin
            : null;
        double? exposure = readings.ExposureEv ?? advised;
        return new PlacedScene
        {
            MostLightEv = most,
            LeastLightEv = least,
            AdvisedEv = advised,
            ExposureEv = exposure,
            Fits = readings.DarkEv is null ? null : fit.Fits,
            RoomEv = readings.DarkEv is null ? null : fit.RoomEv,
            Bright = Placed(readings.BrightEv),
            Dark = Placed(readings.DarkEv),
            Tones = exposure is null ? [] : [.. readings.ToneEvs.Select(ev => Placed(ev)!)],
            Looks = PlacedLook.Of(axis, iso),
        };

        PlacedTone? Placed(double? ev) => ev - exposure is { } placed ? PlacedTone.Of(axis, iso, placed, readings.GuardEv) : null;
    }

    private static void RequireFinite(ReadOnlySpan<double> numbers)
    {
        foreach (double number in numbers)
        {
            if (!double.IsFinite(number))
            {
                throw new ArgumentOutOfRangeException(nameof(numbers), number, "Readings and exposures are finite.");
            }
        }
    }
}
