using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Intakes;

/// <summary>Puts the report of an intake together.</summary>
internal sealed class IntakeReportBuilder(FrameSetContents contents)
{
    /// <summary>Means above this share of saturation are on the plateau.</summary>
    private const double PlateauShare = 0.99;

    /// <summary>What each finding says is missing; those without an ISO say it of every ISO.</summary>
    private static readonly Dictionary<string, string> Missing = new(StringComparer.Ordinal)
    {
        [FindingCode.MeteredMissing] = "metered frames",
        [FindingCode.DarkMissing] = "dark frames",
        [FindingCode.PairMissing] = "second frames of single exposures",
        [FindingCode.LevelsTooFew] = "exposures with two frames",
        [FindingCode.SaturationNotReached] = "exposures that clip",
        [FindingCode.ShadowNotReached] = "darker exposures",
    };

    /// <summary>The report of a set whose pixels were read.</summary>
    public IntakeReport Measured(MeasuredSet measured, IReadOnlyList<IsoProfile> isos, IReadOnlyList<Finding> findings, bool isRefused)
    {
        SetFrame[] used = [.. measured.Set.Levels.SelectMany(l => l.Frames)];
        return Common(used, findings) with
        {
            CanBeCharacterised = !isRefused,
            CanBeWithGreyFromSaturation = isRefused && isos.Count > 0,
            Region = ToRegion(measured.Area.Region),
            Spot = ToRegion(measured.Area.Spot),
            FieldFrame = FieldFrameOf(measured.Set),
            Isos = [.. IsosOf(used, findings, isRefused).Select(iso => WithLight(iso, isos.FirstOrDefault(p => p.Iso == iso.Iso)))],
        };
    }

    /// <summary>The report of a set that is refused before its pixels are read, or after.</summary>
    public IntakeReport Refused(IReadOnlyList<Finding> findings) => Common([], findings);

    private IntakeReport Common(SetFrame[] used, IReadOnlyList<Finding> findings)
    {
        SetFrame[] known = used.Length > 0 ? used : OfOneBody(findings);
        RawFrame? first = known.FirstOrDefault()?.Raw;
        string? Said(Func<FrameMetadata, string?> of) => known.Select(f => of(f.Raw.Metadata)).FirstOrDefault(v => v is not null);
        HashSet<string> usedFiles = [.. used.Select(f => f.File)];
        return new IntakeReport
        {
            CanBeCharacterised = false,
            Body = first is null ? null : new BodyIdentity(Said(m => m.Maker), Said(m => m.Model), Said(m => m.SerialNumber), Said(m => m.Firmware)),
            RecordingMode = first is null ? null : RecordedModeText.Of(first.Metadata.Mode, first.Layout.BitDepth),
            Sensor = first is null ? null : new SensorGeometry(first.Layout.ActiveArea.Width, first.Layout.ActiveArea.Height, first.Layout.ColourFilterArray.Name),
            Isos = [.. IsosOf([.. contents.Frames], findings, isRefused: true)],
            RawFiles = contents.Frames.Count + contents.Rejected.Count,
            LeftOut = [.. contents.Frames.Select(f => f.File).Concat(contents.Rejected.Select(r => r.File)).Where(f => !usedFiles.Contains(f)).Order(StringComparer.Ordinal)],
            FramesSetAside = contents.SetAside.Count,
            FilesIgnored = contents.FilesIgnored,
            Findings = findings,
        };
    }

    /// <summary>Frames of the body that most are of: one body's name must not stand beside another's serial number.</summary>
    private SetFrame[] OfOneBody(IReadOnlyList<Finding> findings)
    {
        HashSet<string> odd = [.. findings.Where(f => f.Code == FindingCode.BodyMixed).SelectMany(f => f.Frames)];
        return [.. contents.Frames.Where(f => !odd.Contains(f.File))];
    }

    private IEnumerable<IntakeIso> IsosOf(SetFrame[] frames, IReadOnlyList<Finding> findings, bool isRefused)
    {
        // An ISO that is refused uses no frame: what it has is told from the folder.
        int[] usedIsos = [.. frames.Select(f => f.Raw.Metadata.Iso).OfType<int>().Distinct()];
        IEnumerable<SetFrame> others = contents.Frames.Where(f => f.Raw.Metadata.Iso is { } iso && !usedIsos.Contains(iso));
        return frames.Where(f => f.Raw.Metadata.Iso is not null).Concat(others)
            .GroupBy(f => f.Raw.Metadata.Iso!.Value)
            .OrderBy(g => g.Key)
            .Select(iso => new IntakeIso
            {
                Iso = iso.Key,
                Roles = [.. iso.Where(f => f.Role is not null && f.Raw.Metadata.ExposureSeconds is not null).GroupBy(f => f.Role!.Value).OrderBy(g => g.Key).Select(RoleOf)],
                Missing = [.. findings.Where(f => (f.Iso is null || f.Iso == iso.Key) && Missing.ContainsKey(f.Code)).Select(f => Missing[f.Code]).Distinct()],
                CanBeCharacterised = !isRefused && !findings.Any(f => f.Severity == FindingSeverity.Refusal && (f.Iso is null || f.Iso == iso.Key)),
            });
    }

    private static IntakeRole RoleOf(IGrouping<FrameRole, SetFrame> frames)
    {
        double[] seconds = [.. frames.Select(f => f.Raw.Metadata.ExposureSeconds!.Value).Order()];
        int exposures = 1;
        double shortest = seconds[0];
        foreach (double exposure in seconds)
        {
            if (!Level.IsSameExposure(shortest, exposure))
            {
                exposures++;
                shortest = exposure;
            }
        }

        return new IntakeRole(frames.Key.ToString().ToLower(CultureInfo.InvariantCulture), seconds.Length, exposures, seconds[0], seconds[^1]);
    }

    private static IntakeIso WithLight(IntakeIso iso, IsoProfile? profile)
    {
        LevelRecord[] bracket = [.. profile?.Levels.Where(l => l.Role == RoleName.Bracket) ?? []];
        double[] stops = [.. bracket.Select(l => l.Ev).OfType<double>()];
        return bracket.Length == 0 ? iso : iso with
        {
            DarkestEv = stops.Length == 0 ? null : stops.Min(),
            BrightestEv = stops.Length == 0 ? null : stops.Max(),
            ClippingLevels = bracket.Count(l => l.Channels.Any(c => c.ClippedFraction > 0 || IsOnPlateau(c, profile!))),
        };
    }

    /// <summary>Whether a channel no longer answers to light, at the full well too, where no code piles up.</summary>
    private static bool IsOnPlateau(LevelChannel channel, IsoProfile profile)
    {
        ChannelProfile own = profile.Channels.Single(c => c.Name == channel.Name);
        return own is { SaturationDn.Value: { } saturation, BlackLevelDn.Value: { } black } && channel.MeanDn - black > PlateauShare * saturation;
    }

    private static string? FieldFrameOf(FrameSet set)
    {
        Level[] metered = [.. set.Levels.Where(l => l.Key.Role == FrameRole.Metered)];
        Level[] bracket = [.. set.Levels.Where(l => l.Key.Role == FrameRole.Bracket)];
        Level[] lit = metered.Length > 0 ? metered : bracket;
        return lit.Length == 0 ? null : lit[lit.Length / 2].Frames[0].File;
    }

    private static MeasuredRegion ToRegion(PixelRectangle r) => new(r.X, r.Y, r.Width, r.Height);
}
