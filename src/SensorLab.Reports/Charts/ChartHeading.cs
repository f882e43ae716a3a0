namespace SensorLab.Reports.Charts;

/// <summary>The words that stand with a chart.</summary>
/// <param name="Title">What the chart shows.</param>
/// <param name="Body">Of which body, firmware and recording mode.</param>
/// <param name="Sentence">What it shows for this body: computed from its figures.</param>
/// <param name="AlternativeText">The chart in words, for who cannot see it.</param>
internal sealed record ChartHeading(string Title, string Body, string Sentence, string AlternativeText);
