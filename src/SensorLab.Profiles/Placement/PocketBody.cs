namespace SensorLab.Profiles.Placement;

/// <summary>One profile on the sheet.</summary>
public sealed record PocketBody
{
    /// <summary>The body.</summary>
    public required BodyIdentity Body { get; init; }

    /// <summary>How it recorded.</summary>
    public required RecordedMode RecordingMode { get; init; }

    /// <summary>When the set was shot; null where the frames do not say.</summary>
    public DateTimeOffset? CreatedUtc { get; init; }

    /// <summary>Whether it is the body in hand.</summary>
    public required PocketKinship Kinship { get; init; }

    /// <summary>The ISO settings that were measured, in rising order.</summary>
    public required IReadOnlyList<PocketIso> Isos { get; init; }

    /// <summary>What to dial in on this body's meter, so that it keeps the same room above grey as the body in hand; none for that one.</summary>
    public IReadOnlyList<DialIn> DialIn { get; init; } = [];

    /// <summary>ISO settings of this body for which nothing can be said of what to dial in, with the reason.</summary>
    public IReadOnlyList<string> NoDialIn { get; init; } = [];

    /// <summary>From a profile.</summary>
    /// <param name="profile">The profile.</param>
    /// <param name="inHand">The profile of the body in hand; null where it is this one.</param>
    internal static PocketBody Of(SensorProfile profile, SensorProfile? inHand)
    {
        (List<DialIn> dialIn, List<string> reasons) = ([], []);
        foreach (IsoProfile iso in profile.IsoProfiles.Where(_ => inHand is not null).OrderBy(p => p.Iso))
        {
            if (inHand!.IsoProfiles.All(p => p.Iso != iso.Iso))
            {
                reasons.Add($"ISO {iso.Iso} was not measured on the body in hand.");
            }
            else if (Placement.DialIn.Between(EvAxis.Of(inHand, iso.Iso), EvAxis.Of(profile, iso.Iso)) is { } dial)
            {
                dialIn.Add(dial);
            }
            else
            {
                reasons.Add($"At ISO {iso.Iso} a clipping point is a bound or was not measured.");
            }
        }

        return new PocketBody
        {
            Body = profile.Body,
            RecordingMode = profile.RecordingMode,
            CreatedUtc = profile.CreatedUtc,
            Kinship = KinshipOf(profile, inHand),
            Isos = [.. profile.IsoProfiles.OrderBy(p => p.Iso).Select(p => PocketIso.Of(profile, p))],
            DialIn = dialIn,
            NoDialIn = reasons,
        };
    }

    private static PocketKinship KinshipOf(SensorProfile profile, SensorProfile? inHand)
    {
        if (inHand is null)
        {
            return PocketKinship.InHand;
        }

        (BodyIdentity own, BodyIdentity first) = (profile.Body, inHand.Body);
        bool isOther = Differ(own.Maker, first.Maker) || Differ(own.Model, first.Model) || Differ(own.SerialNumber, first.SerialNumber);
        return isOther ? PocketKinship.OtherBody
            : own.SerialNumber is null || first.SerialNumber is null ? PocketKinship.Unknown
            : PocketKinship.InHandOtherState;
    }

    private static bool Differ(string? one, string? other) => one is not null && other is not null && one != other;
}
