using SensorLab.Assignment;
using SensorLab.Profiles;
using SensorLab.Sets;

namespace SensorLab.Intakes;

/// <summary>Looks a frame set over: the same door and the same checks as characterising it, without a profile at the end.</summary>
public static class Intake
{
    /// <summary>Reads a frame set and says what it is and what is wrong with it.</summary>
    /// <param name="framesFolder">The frame set's folder.</param>
    /// <param name="options">Region, spot and jobs; what only figures hang on does not matter.</param>
    /// <param name="progress">Told after every level, once for each of its frames; null for silence.</param>
    /// <param name="cancellation">Stops the work at once.</param>
    /// <returns>What was found; a set that cannot be characterised is no exception here.</returns>
    /// <exception cref="FrameTableException">The set's frames.csv cannot be followed.</exception>
    /// <exception cref="CharacterisationOptionsException">The region or the spot lies outside the frames.</exception>
    /// <exception cref="DirectoryNotFoundException">The folder does not exist.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    /// <remarks>
    /// A set refused for its metered frames alone is looked at as if middle grey came from saturation: what else is wrong
    /// with it should not wait for the second evening.
    /// </remarks>
    public static async Task<IntakeReport> RunAsync(
        string framesFolder,
        CharacterisationOptions options,
        IProgress<CharacterisationProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        FrameSetContents contents = await new FrameSetFolder(RawFileAccess.Library).ReadAsync(framesFolder, options.Jobs, cancellation);
        try
        {
            UnsortedFolder.RequirePlainField(contents, RawFileAccess.Library, cancellation);
            return await LookAsync(contents, options, [], progress, cancellation);
        }
        catch (FrameSetRefusedException refused) when (LacksMeteredFramesOnly(refused))
        {
            return await WithoutMeterAsync(contents, options, refused, progress, cancellation);
        }
        catch (FrameSetRefusedException refused)
        {
            return new IntakeReportBuilder(contents).Refused(refused.Findings);
        }
    }

    private static bool LacksMeteredFramesOnly(FrameSetRefusedException refused) =>
        refused.Findings.Where(f => f.Severity == FindingSeverity.Refusal).All(f => f.Code == FindingCode.MeteredMissing);

    private static async Task<IntakeReport> WithoutMeterAsync(
        FrameSetContents contents,
        CharacterisationOptions options,
        FrameSetRefusedException refused,
        IProgress<CharacterisationProgress>? progress,
        CancellationToken cancellation)
    {
        try
        {
            return await LookAsync(contents, options with { Grey = GreyMethod.Saturation }, refused.Findings, progress, cancellation);
        }
        catch (FrameSetRefusedException again)
        {
            return new IntakeReportBuilder(contents).Refused(FindingOrder.WorstFirst(refused.Findings.Concat(again.Findings.Where(f => !refused.Findings.Any(r => IsSame(r, f))))));
        }
    }

    private static async Task<IntakeReport> LookAsync(
        FrameSetContents contents,
        CharacterisationOptions options,
        IReadOnlyList<Finding> earlier,
        IProgress<CharacterisationProgress>? progress,
        CancellationToken cancellation)
    {
        MeasuredSet measured = await SetMeasurement.RunAsync(RawFileAccess.Library, contents, options, hashesFiles: false, progress, cancellation);
        MeasuredPreviews previews = await PreviewMeter.MeasureAsync(contents, measured, options.Jobs, cancellation);
        (IReadOnlyList<IsoProfile> isos, IReadOnlyList<Finding> findings) = new ProfileAssembler(contents, measured, previews, options, cancellation).Appraise();
        IReadOnlyList<Finding> all = FindingOrder.WorstFirst(findings.Concat(earlier.Where(e => !findings.Any(f => IsSame(e, f)))));
        return new IntakeReportBuilder(contents).Measured(measured, isos, all, isRefused: isos.Count == 0 || earlier.Count > 0);
    }

    private static bool IsSame(Finding first, Finding second) =>
        first.Code == second.Code && first.Iso == second.Iso && first.Message == second.Message;
}
