using System.Globalization;
using SensorLab.Frames;
using SensorLab.Profiles;

namespace SensorLab.Sets.Checks;

/// <summary>
/// lens-setting-mixed: more than one aperture among the metered and bracket frames of an ISO, so that exposures can
/// not be compared. Dark frames may have any aperture.
/// </summary>
/// <remarks>
/// An aperture that a frame does not tell agrees with any; 0 is told by a lens without contacts and so differs from
/// an f-number: another lens was on.
/// </remarks>
internal sealed class LensSettingCheck : ISetCheck
{
    public IEnumerable<Finding> Examine(CheckedSet set) => set.FramesByIso.Select(FindingOf).OfType<Finding>();

    private static Finding? FindingOf(IGrouping<int, SetFrame> iso)
    {
        SetFrame[] lit =
        [
            .. iso.Where(f => f.Role is FrameRole.Bracket or FrameRole.Metered && f.Raw.Metadata.ApertureFNumber is >= 0)
                .OrderBy(f => f.Raw.Metadata.ApertureFNumber),
        ];
        var settings = new List<List<SetFrame>>();
        foreach (SetFrame frame in lit)
        {
            if (settings.Count == 0 || !Aperture.IsSame(FNumberOf(settings[^1][0]), FNumberOf(frame)))
            {
                settings.Add([]);
            }

            settings[^1].Add(frame);
        }

        if (settings.Count < 2)
        {
            return null;
        }

        List<SetFrame> most = settings.MaxBy(s => s.Count)!;
        return SetFindings.Refusal(
            FindingCode.LensSettingMixed,
            lit.Except(most),
            $"ISO {iso.Key.ToString(CultureInfo.InvariantCulture)} was shot at more than one aperture: {string.Join(", ", settings.Select(Describe))}.",
            "Keep the aperture fixed through the metered frames and the bracket of an ISO; change shutter time or light alone.",
            iso.Key);
    }

    private static string Describe(List<SetFrame> setting)
    {
        double fNumber = FNumberOf(setting[0]);
        string name = fNumber > 0 ? string.Create(CultureInfo.InvariantCulture, $"f/{fNumber:0.##}") : "a lens without contacts";
        return $"{name} ({SetFindings.Count(setting.Count)})";
    }

    private static double FNumberOf(SetFrame frame) => frame.Raw.Metadata.ApertureFNumber!.Value;
}
