using System.Globalization;
using SensorLab.Planning.Plans;

namespace SensorLab.Plans;

/// <summary>Compares a frame set's folder with the plan that it was shot by.</summary>
public static class PlanReview
{
    /// <summary>Reads the headers of the frames and compares them with the plan.</summary>
    /// <param name="framesFolder">The frame set's folder.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="jobs">Files opened at once, 1 or more.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="FrameTableException">The set's frames.csv cannot be followed.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static async Task<PlanComparison> RunAsync(string framesFolder, ShotPlan plan, int jobs, CancellationToken cancellation = default)
    {
        FrameSetContents contents = await new FrameSetFolder(RawFileAccess.Library).ReadAsync(framesFolder, jobs, cancellation);
        return PlanComparison.Of(plan, [.. contents.Frames.Select(f => new ShotFrame(
            f.File,
            f.Role?.ToString().ToLower(CultureInfo.InvariantCulture),
            f.Raw.Metadata.Iso,
            f.Raw.Metadata.ExposureSeconds,
            f.LightStep,
            f.Light))]);
    }
}
