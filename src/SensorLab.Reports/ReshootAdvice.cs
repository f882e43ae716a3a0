using SensorLab.Profiles;

namespace SensorLab.Reports;

/// <summary>What findings ask to be shot again.</summary>
internal static class ReshootAdvice
{
    // What to shoot by finding, in the order in which it is done: at the desk, on the body, metered, bracket, dark. Findings that tell of the body itself ask for nothing.
    private static readonly (string What, string[] Codes)[] Asks =
    [
        ("the frames that did not open: copy them again from the card, or shoot them", [FindingCode.FrameUnreadable, FindingCode.FrameUnsuitable, FindingCode.FrameIncomplete]),
        ("the whole set, with one body, firmware and recording mode", [FindingCode.BodyMixed, FindingCode.FirmwareMixed, FindingCode.ModeMixed, FindingCode.FramesNone]),
        ("the whole set, with noise reduction and sharpening off", [FindingCode.RawFiltered]),
        ("every frame, in one recording mode", [FindingCode.DepthMixed]),
        ("the whole ISO, in one go with its neighbours", [FindingCode.IsoDisagrees, FindingCode.ModelRejected]),
        ("the metered frames", [FindingCode.MeteredMissing, FindingCode.MeteredDoubtful]),
        ("the bracket, at one aperture", [FindingCode.LensSettingMixed]),
        ("the bracket, on a plain field well out of focus", [FindingCode.TargetTextured]),
        ("the bracket, under a steady light", [FindingCode.LightDrift, FindingCode.LightFlicker, FindingCode.LightBanded]),
        ("the bracket's bright end, until every channel clips", [FindingCode.SaturationNotReached]),
        ("the bracket, two frames at five levels or more", [FindingCode.LevelsTooFew]),
        ("a second frame of each level that has one", [FindingCode.PairMissing]),
        ("the dark frames, lens cap on and eyepiece covered", [FindingCode.DarkMissing, FindingCode.DarkLit]),
    ];

    /// <summary>The list, in the order in which to do it.</summary>
    /// <param name="profile">The sensor profile.</param>
    public static IReadOnlyList<string> Of(SensorProfile profile)
    {
        Finding[] asking = [.. profile.Findings.Where(f => f.Severity != FindingSeverity.Note && !FindingCause.IsCompensated(f))];
        return
        [
            .. Asks
                .Select(ask => (ask.What, Found: asking.Where(f => ask.Codes.Contains(f.Code)).ToArray()))
                .Where(ask => ask.Found.Length > 0)
                .Select(ask => Words(ask.What, ask.Found)),
        ];
    }

    private static string Words(string what, Finding[] found)
    {
        int[] isos = [.. found.Select(f => f.Iso).OfType<int>().Distinct().Order()];
        bool isWhole = found.Any(f => f.Iso is null) || isos.Length == 0;
        string where = isWhole ? string.Empty : $"{ReviewWords.Isos(isos)}: ";
        string codes = string.Join(", ", found.Select(f => f.Code).Distinct().Order(StringComparer.Ordinal));
        string sentence = $"{where}{what} ({codes})";
        return char.ToUpperInvariant(sentence[0]) + sentence[1..] + ".";
    }
}
