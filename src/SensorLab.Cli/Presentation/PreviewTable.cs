using System.Globalization;
using SensorLab.Profiles.Placement;

namespace SensorLab.Cli.Presentation;

/// <summary>What the camera's previews pretend, a line a look.</summary>
internal static class PreviewTable
{
    private const int LookWidth = 14;

    /// <summary>The lines; none where no preview was measured.</summary>
    public static IReadOnlyList<string> Lines(PlacementAnswer answer)
    {
        if (answer.Previews.Count == 0)
        {
            return [];
        }

        string light = answer.Light is null ? string.Empty : " The previews are of the light that the set was shot in.";
        return
        [
            string.Empty,
            "Preview of      shows this tone   blinks from      raw still   set highlight",
            "look                              EV above grey    holds       warning to",
            .. answer.Previews.SelectMany(p => Rows(p, answer)),
            .. WrappedText.Lines("The warning then marks the limit of bright texture at the guard of 2/3; none: the preview is blown before that." + light),
        ];
    }

    private static IEnumerable<string> Rows(PreviewPretence preview, PlacementAnswer answer)
    {
        string look = PlacementText.Printable(preview.Look);
        if (look.Length > LookWidth)
        {
            foreach (string line in WrappedText.Lines(look, "  ", "  "))
            {
                yield return line;
            }

            look = string.Empty;
        }

        yield return $"  {look,-LookWidth}{ToneOf(preview, answer),-18}{PlacementText.Signed(preview.ClipEv),-17}{StopText.Of(preview.HiddenHeadroomEv),-12}{WarningOf(preview)}".TrimEnd();
    }

    private static string ToneOf(PreviewPretence preview, PlacementAnswer answer) => preview switch
    {
        { ShowsClipped: true } => answer.Clips == false ? "blown, raw is not" : "blown",
        { ShowsBlack: true } => "black",
        { ToneCode: { } code } => string.Create(CultureInfo.InvariantCulture, $"code {code:0} of 255"),
        _ => StopText.Absent,
    };

    private static string WarningOf(PreviewPretence preview) => preview.HighlightWarningPercent switch
    {
        { Value: { } percent } => string.Create(CultureInfo.InvariantCulture, $"{percent:0} %"),
        { AtLeast: { } bound } when preview.HiddenHeadroomEv?.Value is not null => bound >= 99 ? "none" : string.Create(CultureInfo.InvariantCulture, $"over {bound:0} %"),
        { AtLeast: { } bound } => string.Create(CultureInfo.InvariantCulture, $"{bound:0} % or more"),
        _ => StopText.Absent,
    };
}
