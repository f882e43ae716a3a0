using SensorLab.Profiles;

namespace SensorLab.Debrief;

/// <summary>How an assignment used the sensor.</summary>
public sealed record DayDebrief
{
    /// <summary>The body that the profile is of.</summary>
    public required BodyIdentity Body { get; init; }

    /// <summary>The frames that the profile can speak for, by path.</summary>
    public required IReadOnlyList<FrameDebrief> Frames { get; init; }

    /// <summary>What was left out and why, and what casts doubt on the rest.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The day at each ISO, in rising order.</summary>
    public required IReadOnlyList<IsoUse> Isos { get; init; }

    /// <summary>What the body holds at each of those ISOs.</summary>
    public required IReadOnlyList<IsoHold> Holds { get; init; }

    /// <summary>Frames of which a surface of a thousandth of the frame or more clips.</summary>
    public int ClippedFrames => Frames.Count(f => f.HeadroomLeftEv <= 0);

    /// <summary>The median of the headroom left, in EV; null without a frame.</summary>
    public double? MedianHeadroomLeftEv => Quantile.Of(Frames.Select(f => f.HeadroomLeftEv), 0.5);

    /// <summary>What to do next time, a sentence an ISO, those with the most frames first.</summary>
    public IReadOnlyList<string> Advice => [.. Isos.OrderByDescending(i => i.Frames).ThenBy(i => i.Iso).SelectMany(DayAdvice.Of)];

    /// <summary>The frames in the order in which to look at them: hidden clips, surfaces that clip, then the most light left unused.</summary>
    public IReadOnlyList<FrameDebrief> LookAtFirst() =>
    [
        .. Frames
            .OrderByDescending(f => f.PreviewHidClipped == true)
            .ThenByDescending(f => f.HeadroomLeftEv <= 0 ? f.ClippedSurfacePercent : 0)
            .ThenByDescending(f => f.ExposeToClipEv ?? 0)
            .ThenBy(f => f.File, StringComparer.Ordinal),
    ];

    /// <summary>Sums a day up.</summary>
    /// <param name="profile">The profile that it was held against.</param>
    /// <param name="frames">The frames that it can speak for.</param>
    /// <param name="findings">What else is to be said.</param>
    public static DayDebrief Of(SensorProfile profile, IEnumerable<FrameDebrief> frames, IEnumerable<Finding> findings)
    {
        FrameDebrief[] all = [.. frames.OrderBy(f => f.File, StringComparer.Ordinal)];
        int[] isos = [.. all.Select(f => f.Iso).Distinct().Order()];
        return new DayDebrief
        {
            Body = profile.Body,
            Frames = all,
            Findings = [.. findings],
            Isos = [.. isos.Select(iso => IsoUse.Of(iso, [.. all.Where(f => f.Iso == iso)]))],
            Holds = [.. isos.Select(iso => IsoHold.Of(profile.IsoProfiles.First(p => p.Iso == iso)))],
        };
    }
}
