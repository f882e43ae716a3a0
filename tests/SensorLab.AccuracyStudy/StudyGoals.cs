namespace SensorLab.AccuracyStudy;

/// <summary>The goals of the measurement model, section 11.</summary>
internal static class StudyGoals
{
    private const double LowestCoverage = 0.93;
    private const double HighestCoverage = 0.97;
    private const double LowestRatio = 0.9;
    private const double HighestRatio = 1.1;
    private const double HighestBoundRatio = 1.1;
    private const double LargestGainBias = 0.002;

    /// <summary>What a pooled figure misses, empty where it meets its goals.</summary>
    public static IReadOnlyList<string> MissesOf(StudyFigure figure, FigureSummary summary)
    {
        List<string> misses = [];
        if (summary.Coverage < LowestCoverage || (!summary.AtLimit && summary.Coverage > HighestCoverage))
        {
            misses.Add("coverage");
        }

        if (!summary.AtLimit && summary.ErrorOverUncertainty is not (>= LowestRatio and <= HighestRatio))
        {
            misses.Add("uncertainty");
        }

        if (summary.ErrorOverBound > HighestBoundRatio)
        {
            misses.Add("efficiency");
        }

        if (figure.Name == StudyFigure.Gain && Math.Abs(summary.RelativeBias) > LargestGainBias)
        {
            misses.Add("bias");
        }

        return misses;
    }
}
