using System.Globalization;
using SensorLab.Profiles;

namespace SensorLab.Measurement.Previews;

/// <summary>What the previews of an ISO have to say beside their figures.</summary>
internal static class PreviewFindings
{
    public static Finding Adaptive(int iso, string look, double changeEv) => new()
    {
        Code = FindingCode.PreviewAdaptive,
        Severity = FindingSeverity.Note,
        Iso = iso,
        Size = changeEv,
        SizeUnit = "ev",
        Message = string.Create(
            CultureInfo.InvariantCulture,
            $"At ISO {iso} the preview of the look \"{look}\" is bent anew for each frame, by {changeEv:F2} EV: it has no curve to compare with the raw file, and no highlight warning can be set by it."),
        Remedy = "Switch off what adapts the picture to the scene (automatic contrast, shadow lifting, automatic exposure of the preview), and shoot the bracket again.",
    };
}
