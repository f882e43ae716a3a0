using SensorLab.Profiles;
using SensorLab.Sets.Checks;

namespace SensorLab.Sets;

/// <summary>Sorts frames into levels and says, from what the frames tell of themselves, what is wrong with the set.</summary>
/// <remarks>
/// What only the pixels show (lit darks, duplicates, metered frames that disagree, steps of the codes) is found when
/// they are read. An unknown value (null) is no evidence of a difference: frames without a serial number are not
/// "another body".
/// </remarks>
public static class FrameSetBuilder
{
    private static readonly IFrameSieve[] ServiceSieves = [new RoleSieve(), new ExposureSieve()];

    private static readonly ISetCheck[] IdentityChecks = [new BodyCheck(), new FirmwareCheck()];

    private static readonly SizeSieve Size = new();

    private static readonly ISetCheck[] SetChecks =
    [
        new SetSizeCheck(),
        new RecordingModeCheck(),
        new LensSettingCheck(),
        new RolePresenceCheck(),
        new MeteredDoubtCheck(),
        new PairCheck(),
        new LevelCountCheck(),
    ];

    /// <summary>Builds the frame set.</summary>
    /// <param name="frames">The frames that could be opened, in any order.</param>
    /// <param name="grey">How middle grey is to be defined: by saturation, no metered frame is needed.</param>
    /// <param name="earlier">What was found while the folder was read; it becomes part of the set's findings.</param>
    /// <returns>
    /// The levels of every ISO that is not refused, all findings with the worst first, and the frames that no level
    /// uses. A refused set has no levels (<see cref="FrameSet.IsRefused"/>).
    /// </returns>
    public static FrameSet Build(IReadOnlyList<SetFrame> frames, GreyMethod grey, IReadOnlyList<Finding>? earlier = null)
    {
        var findings = new List<Finding>(earlier ?? []);
        IReadOnlyList<SetFrame> kept = [.. frames.Order(FrameOrder.Taken)];
        foreach (IFrameSieve sieve in ServiceSieves)
        {
            kept = Sift(sieve, kept, findings);
        }

        // Before sizes are compared: a frame of another body must not slip away as one of another size.
        Examine(IdentityChecks, new CheckedSet(kept, [], grey), findings);
        kept = Sift(Size, kept, findings);
        if (kept.Count == 0)
        {
            findings.Add(SetFindings.FramesNone(frames.Count + findings.Count(f => f.Code is FindingCode.FrameUnreadable or FindingCode.FrameUnsuitable)));
        }

        IReadOnlyList<Level> levels = LevelGrouping.Group(kept);
        Examine(SetChecks, new CheckedSet(kept, levels, grey), findings);
        return WithoutRefused(frames, levels, findings);
    }

    private static IReadOnlyList<SetFrame> Sift(IFrameSieve sieve, IReadOnlyList<SetFrame> frames, List<Finding> findings)
    {
        SiftedFrames sifted = sieve.Sift(frames);
        findings.AddRange(sifted.Findings);
        return sifted.Kept;
    }

    private static void Examine(IEnumerable<ISetCheck> checks, CheckedSet set, List<Finding> findings)
    {
        foreach (ISetCheck check in checks)
        {
            findings.AddRange(check.Examine(set));
        }
    }

    private static FrameSet WithoutRefused(IReadOnlyList<SetFrame> frames, IReadOnlyList<Level> levels, List<Finding> findings)
    {
        IReadOnlySet<int> refused = RefusalPolicy.RefusedIsos(findings);
        IReadOnlyList<Level> measurable = RefusalPolicy.RefusesSet(findings, levels.Select(l => l.Key.Iso))
            ? []
            : [.. levels.Where(l => !refused.Contains(l.Key.Iso))];
        var used = measurable.SelectMany(l => l.Frames).ToHashSet(ReferenceEqualityComparer.Instance);
        return new FrameSet
        {
            Levels = measurable,
            Findings = FindingOrder.WorstFirst(findings),
            LeftOut = [.. frames.Where(f => !used.Contains(f)).OrderBy(f => f.File, StringComparer.Ordinal)],
        };
    }
}

/// <summary>What refusals among the findings mean for a set: one of the set refuses it, one of an ISO that ISO alone.</summary>
/// <remarks>A set of which every ISO is refused is refused.</remarks>
public static class RefusalPolicy
{
    /// <summary>The ISOs that findings refuse.</summary>
    /// <param name="findings">All findings of a set.</param>
    /// <returns>ISO settings, each once.</returns>
    public static IReadOnlySet<int> RefusedIsos(IEnumerable<Finding> findings) =>
        findings.Where(f => f is { Severity: FindingSeverity.Refusal, Iso: not null }).Select(f => f.Iso!.Value).ToHashSet();

    /// <summary>Whether nothing of the set can be measured.</summary>
    /// <param name="findings">All findings of a set.</param>
    /// <param name="isos">The ISOs of its frames.</param>
    /// <returns>True where a finding refuses the whole set, or findings refuse every ISO of it, or it has none.</returns>
    public static bool RefusesSet(IReadOnlyCollection<Finding> findings, IEnumerable<int> isos) =>
        findings.Any(f => f is { Severity: FindingSeverity.Refusal, Iso: null }) || RefusedIsos(findings).IsSupersetOf(isos);
}
