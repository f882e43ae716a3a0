using SensorLab.Profiles;
using SensorLab.Reports;

namespace SensorLab.Cli.Presentation;

/// <summary>A report in 80 columns: the latitude table, whether the profile can be used, what to shoot again.</summary>
internal static class ReportSummary
{
    private const string Indent = "  ";

    /// <summary>The lines.</summary>
    public static IReadOnlyList<string> Lines(SensorProfile profile) =>
    [
        .. LatitudeTable.Lines(profile),
        string.Empty,
        .. AnswerLines(ProfileReview.Of(profile)),
    ];

    /// <summary>Both answers.</summary>
    public static IReadOnlyList<string> AnswerLines(ProfileReview review) =>
    [
        .. WrappedText.Lines(review.Sentence, "Can I use it? ", Indent),
        .. review.ShootAgain.Count == 0
            ? ["Shoot again: nothing."]
            : review.ShootAgain.SelectMany(item => WrappedText.Lines(item, "- ", Indent)).Prepend("Shoot again:"),
    ];

    /// <summary>Where the report is.</summary>
    public static string PlaceLine(string folder) => $"Report: {Path.Combine(folder, "report.html")}";
}
