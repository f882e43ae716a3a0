using SensorLab.Profiles;

namespace SensorLab.Reports.Documents;

/// <summary>A report apart from page and paper.</summary>
/// <param name="Profile">The sensor profile.</param>
/// <param name="Title">The body's name.</param>
/// <param name="Subtitles">Which body, firmware and mode; when and under what conditions.</param>
/// <param name="Review">What was made of the profile.</param>
/// <param name="Sections">The sections; the first is the first screen.</param>
internal sealed record ReportDocument(
    SensorProfile Profile, string Title, IReadOnlyList<string> Subtitles, ProfileReview Review, IReadOnlyList<ReportSection> Sections);
