namespace SensorLab.Reports.Documents;

/// <summary>The two questions of a reviewer with their answers.</summary>
/// <param name="Review">What was made of the profile.</param>
internal sealed record AnswersBlock(ProfileReview Review) : ReportBlock;
