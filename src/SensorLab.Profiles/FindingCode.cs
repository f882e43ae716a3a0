namespace SensorLab.Profiles;

/// <summary>The codes of findings: the catalogue of what can be wrong with a frame set and what was seen in it.</summary>
public static class FindingCode
{
    /// <summary>No usable frame.</summary>
    public const string FramesNone = "frames-none";

    /// <summary>More ISOs, levels, looks or lights than a profile holds.</summary>
    public const string SetTooLarge = "set-too-large";

    /// <summary>ISO or exposure time unknown: left out.</summary>
    public const string FrameIncomplete = "frame-incomplete";

    /// <summary>A raw file without a role: left out.</summary>
    public const string FrameUnassigned = "frame-unassigned";

    /// <summary>No frame defines middle grey at an ISO.</summary>
    public const string MeteredMissing = "metered-missing";

    /// <summary>Metered frames that disagree, or that were not spot-metered at zero.</summary>
    public const string MeteredDoubtful = "metered-doubtful";

    /// <summary>No dark frames at an ISO.</summary>
    public const string DarkMissing = "dark-missing";

    /// <summary>Dark frames into which light came.</summary>
    public const string DarkLit = "dark-lit";

    /// <summary>A level of one frame: no variance from it.</summary>
    public const string PairMissing = "pair-missing";

    /// <summary>Fewer than five levels of two frames or more.</summary>
    public const string LevelsTooFew = "levels-too-few";

    /// <summary>Frames of more than one body.</summary>
    public const string BodyMixed = "body-mixed";

    /// <summary>Frames of more than one firmware.</summary>
    public const string FirmwareMixed = "firmware-mixed";

    /// <summary>Frames of more than one recording mode.</summary>
    public const string ModeMixed = "mode-mixed";

    /// <summary>More than one aperture in an ISO's bracket.</summary>
    public const string LensSettingMixed = "lens-setting-mixed";

    /// <summary>Frames of one ISO with different code steps.</summary>
    public const string DepthMixed = "depth-mixed";

    /// <summary>A file that does not decode: left out.</summary>
    public const string FrameUnreadable = "frame-unreadable";

    /// <summary>A file that decodes but is no sensor data: left out.</summary>
    public const string FrameUnsuitable = "frame-unsuitable";

    /// <summary>The same pixels twice: one left out.</summary>
    public const string FrameDuplicate = "frame-duplicate";

    /// <summary>A frame of another size or colour filter array: left out.</summary>
    public const string FrameSizeDiffers = "frame-size-differs";

    /// <summary>A converter's name where the firmware should be.</summary>
    public const string FirmwareUnknown = "firmware-unknown";

    /// <summary>Code steps that grow with the signal.</summary>
    public const string RawCompanded = "raw-companded";

    /// <summary>The file's own black or white level differs from the measured one.</summary>
    public const string LevelsDeclared = "levels-declared";

    /// <summary>The light changed steadily over a bracket.</summary>
    public const string LightDrift = "light-drift";

    /// <summary>The light varied between the frames of a level.</summary>
    public const string LightFlicker = "light-flicker";

    /// <summary>A folder of frames whose name is a role in another spelling, or nearly one.</summary>
    public const string FolderNamed = "folder-named";

    /// <summary>A frames.csv below the top of a frame set, which is not read.</summary>
    public const string TableMisplaced = "table-misplaced";

    /// <summary>Two light levels at one ISO, exposure time and aperture.</summary>
    public const string LightStepped = "light-stepped";

    /// <summary>Pulsed light under a rolling shutter.</summary>
    public const string LightBanded = "light-banded";

    /// <summary>Nominal exposure and signal disagree.</summary>
    public const string ExposureInexact = "exposure-inexact";

    /// <summary>Shading or gradient over the region.</summary>
    public const string TargetUneven = "target-uneven";

    /// <summary>Structure, dust or focus detail in the region.</summary>
    public const string TargetTextured = "target-textured";

    /// <summary>Defective pixels, counted and kept out.</summary>
    public const string PixelsHot = "pixels-hot";

    /// <summary>Columns or rows that are dead, weak or bright: kept out.</summary>
    public const string LinesDead = "lines-dead";

    /// <summary>A part of the field that is bright without light.</summary>
    public const string FieldGlowing = "field-glowing";

    /// <summary>Row or column noise above the pixel noise's expectation.</summary>
    public const string NoiseBanded = "noise-banded";

    /// <summary>Read noise below half a code step.</summary>
    public const string NoiseBelowStep = "noise-below-step";

    /// <summary>Black moves between frames, or against the optical black pixels.</summary>
    public const string BlackDrift = "black-drift";

    /// <summary>Dark signal that grows with exposure time.</summary>
    public const string DarkCurrent = "dark-current";

    /// <summary>Code gaps in one channel alone.</summary>
    public const string ChannelScaled = "channel-scaled";

    /// <summary>Dark values cut off at black.</summary>
    public const string BlackClipped = "black-clipped";

    /// <summary>Neighbouring pixels correlate: the raw data were filtered.</summary>
    public const string RawFiltered = "raw-filtered";

    /// <summary>Code gaps: a digital push of another ISO.</summary>
    public const string GainDigital = "gain-digital";

    /// <summary>Two ISOs of one gain and another middle grey.</summary>
    public const string GainShared = "gain-shared";

    /// <summary>A second conversion gain.</summary>
    public const string GainSwitch = "gain-switch";

    /// <summary>Linearity error over 1 % below the clip.</summary>
    public const string ResponseNonlinear = "response-nonlinear";

    /// <summary>Bands show above the criterion's shadow end.</summary>
    public const string ShadowBanded = "shadow-banded";

    /// <summary>An ISO that differs from its neighbours without a reason.</summary>
    public const string IsoDisagrees = "iso-disagrees";

    /// <summary>The fit does not describe the points beyond chance.</summary>
    public const string ModelRejected = "model-rejected";

    /// <summary>The bracket stops below the clip.</summary>
    public const string SaturationNotReached = "saturation-not-reached";

    /// <summary>The bracket stops above a criterion.</summary>
    public const string ShadowNotReached = "shadow-not-reached";

    /// <summary>No preview to compare.</summary>
    public const string PreviewMissing = "preview-missing";

    /// <summary>A preview whose curve changes from frame to frame.</summary>
    public const string PreviewAdaptive = "preview-adaptive";
}
