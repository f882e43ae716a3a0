using SensorLab.Profiles;

namespace SensorLab.Reports;

/// <summary>What a finding's code means to a photographer: the cause in a few words, the end of the latitude that it touches.</summary>
/// <param name="What">The cause in a few words, without a full stop.</param>
/// <param name="Touches">The end that it moves, or hides.</param>
internal sealed record FindingCause(string What, FindingEnds Touches)
{
    /// <summary>Whether a note of this code says that the flaw was taken out of the figures.</summary>
    public bool IsNoteCompensated { get; init; }

    /// <summary>Whether a warning of this code says so, too.</summary>
    public bool IsWarningCompensated { get; init; }

    /// <summary>Whether its size says how far the ends may be off: else it is of something that their intervals carry.</summary>
    public bool SizeIsOfEnds { get; init; } = true;

    private static readonly Dictionary<string, FindingCause> ByCode = new(StringComparer.Ordinal)
    {
        [FindingCode.FramesNone] = new("there are no raw frames", FindingEnds.None),
        [FindingCode.SetTooLarge] = new("the set is larger than one run takes", FindingEnds.None),
        [FindingCode.FrameIncomplete] = new("frames do not say how they were shot", FindingEnds.None),
        [FindingCode.FrameUnassigned] = new("frames have no role", FindingEnds.None),
        [FindingCode.MeteredMissing] = new("no metered frames, so no middle grey", FindingEnds.Both),
        [FindingCode.MeteredDoubtful] = new("the metered frames disagree", FindingEnds.Both),
        [FindingCode.DarkMissing] = new("no dark frames, so no black", FindingEnds.Both),
        [FindingCode.DarkLit] = new("light came into the dark frames", FindingEnds.Shadow),
        [FindingCode.PairMissing] = new("some exposures have a single frame", FindingEnds.None),
        [FindingCode.LevelsTooFew] = new("too few exposures", FindingEnds.Both),
        [FindingCode.BodyMixed] = new("frames of two bodies", FindingEnds.None),
        [FindingCode.FirmwareMixed] = new("frames of two firmwares", FindingEnds.None),
        [FindingCode.ModeMixed] = new("frames of two recording modes", FindingEnds.None),
        [FindingCode.LensSettingMixed] = new("two apertures in one bracket", FindingEnds.None),
        [FindingCode.DepthMixed] = new("frames of two bit depths", FindingEnds.None),
        [FindingCode.FrameUnreadable] = new("files do not open", FindingEnds.None),
        [FindingCode.FrameUnsuitable] = new("files hold no raw sensor data", FindingEnds.None),
        [FindingCode.FrameDuplicate] = new("the same frame lies there twice", FindingEnds.None),
        [FindingCode.FrameSizeDiffers] = new("frames of another image size", FindingEnds.None),
        [FindingCode.FirmwareUnknown] = new("the firmware is not named", FindingEnds.None),
        [FindingCode.RawCompanded] = new("raw codes are compressed", FindingEnds.Both),
        [FindingCode.LevelsDeclared] = new("the files state another black or white", FindingEnds.None),
        [FindingCode.LightDrift] = new("the light drifted", FindingEnds.Both),
        [FindingCode.LightFlicker] = new("the light flickered", FindingEnds.Both) { IsNoteCompensated = true, IsWarningCompensated = true },
        [FindingCode.FolderNamed] = new("a folder's name is no role", FindingEnds.None),
        [FindingCode.TableMisplaced] = new("frames.csv does not lie at the top", FindingEnds.None),
        [FindingCode.LightStepped] = new("the light was changed", FindingEnds.Both) { IsNoteCompensated = true },
        [FindingCode.LightBanded] = new("light pulses ran over the frames as bands", FindingEnds.Both),
        [FindingCode.ExposureInexact] = new("shutter times are not exact", FindingEnds.Both) { IsNoteCompensated = true },
        [FindingCode.TargetUneven] = new("the field is uneven", FindingEnds.Both) { IsNoteCompensated = true },
        [FindingCode.TargetTextured] = new("the field shows texture or dust", FindingEnds.Both),
        [FindingCode.PixelsHot] = new("hot pixels, kept out", FindingEnds.Shadow) { IsNoteCompensated = true },
        [FindingCode.LinesDead] = new("bad rows or columns, kept out", FindingEnds.Shadow) { IsNoteCompensated = true },
        [FindingCode.FieldGlowing] = new("a part of the field glows without light", FindingEnds.Shadow) { IsNoteCompensated = true },
        [FindingCode.NoiseBanded] = new("rows or columns share noise", FindingEnds.Shadow),
        [FindingCode.NoiseBelowStep] = new("noise is finer than the raw codes", FindingEnds.Shadow),
        [FindingCode.BlackDrift] = new("black drifted", FindingEnds.Shadow) { IsNoteCompensated = true },
        [FindingCode.DarkCurrent] = new("black rises with exposure time", FindingEnds.Shadow),
        [FindingCode.ChannelScaled] = new("one channel is scaled in the camera", FindingEnds.None),
        [FindingCode.BlackClipped] = new("black is cut off", FindingEnds.Shadow),
        [FindingCode.RawFiltered] = new("the raw data are filtered", FindingEnds.Both),
        [FindingCode.GainDigital] = new("this ISO is another one pushed", FindingEnds.None),
        [FindingCode.GainShared] = new("two ISOs are one sensor setting", FindingEnds.None),
        [FindingCode.GainSwitch] = new("read noise drops from this ISO on", FindingEnds.None),
        [FindingCode.ResponseNonlinear] = new("the response is not straight", FindingEnds.Bright),
        [FindingCode.ShadowBanded] = new("bands show in the shadows", FindingEnds.Shadow),
        [FindingCode.IsoDisagrees] = new("an ISO does not fit its neighbours", FindingEnds.Both),
        [FindingCode.ModelRejected] = new("the noise does not follow the law", FindingEnds.Both) { SizeIsOfEnds = false },
        [FindingCode.SaturationNotReached] = new("the bracket never clips", FindingEnds.Bright),
        [FindingCode.ShadowNotReached] = new("the bracket ends above the shadow end", FindingEnds.Shadow),
        [FindingCode.PreviewMissing] = new("no preview to compare", FindingEnds.None),
        [FindingCode.PreviewAdaptive] = new("the preview's curve changes from frame to frame", FindingEnds.None),
    };

    /// <summary>Whether the figures are free of what was found, so that it casts no doubt on them and asks for no new frames.</summary>
    /// <param name="finding">The finding.</param>
    public static bool IsCompensated(Finding finding) => Of(finding.Code) is { } cause && finding.Severity switch
    {
        FindingSeverity.Note => cause.IsNoteCompensated,
        FindingSeverity.Warning => cause.IsWarningCompensated,
        _ => false,
    };

    /// <summary>The cause of a code.</summary>
    /// <param name="code">The finding's code, from anywhere.</param>
    /// <returns>Null for a code that this version does not know.</returns>
    public static FindingCause? Of(string code) => ByCode.GetValueOrDefault(code);
}
