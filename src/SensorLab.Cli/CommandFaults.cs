using System.Globalization;
using SensorLab.Debrief;
using SensorLab.Files;
using SensorLab.Frames;
using SensorLab.Imaging;
using SensorLab.Planning.Plans;
using SensorLab.Retest;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;
using SensorLab.Reports;
using SensorLab.Shelf;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Cli;

/// <summary>Maps what goes wrong to the contract's exit statuses and one clear sentence with its remedy.</summary>
internal static class CommandFaults
{
    /// <summary>The exit status and what to say of a fault.</summary>
    /// <param name="fault">What a command threw.</param>
    /// <returns>The status; and the message, without a stack trace.</returns>
    public static (int Status, string Message) Of(Exception fault) => fault switch
    {
        AggregateException { InnerExceptions.Count: > 0 } many => Of(Foremost(many)),
        OperationCanceledException => (ExitStatus.Cancelled, "cancelled; nothing half-written is left."),
        UsageException or BodyUnknownException => (ExitStatus.Usage, fault.Message),
        FrameTableException e => (ExitStatus.Usage, string.Create(CultureInfo.InvariantCulture, $"frames.csv, line {e.Line}: {e.Message} {e.Remedy}")),
        CharacterisationOptionsException e => (ExitStatus.Usage, $"{e.Option}: {e.Message} {e.Remedy}"),
        OutputIsInputException => (ExitStatus.Usage, fault.Message),
        RehearsalUsageException => (ExitStatus.Usage, fault.Message),
        IsoUnmeasuredException e => (ExitStatus.Refused, string.Create(CultureInfo.InvariantCulture, $"this sensor profile does not hold ISO {e.Iso}:")),
        SwatchRefusedException => (ExitStatus.Refused, "no swatch can be drawn:"),
        FrameSetRefusedException => (ExitStatus.Refused, "this frame set cannot be characterised:"),
        JobRefusedException => (ExitStatus.Refused, "this profile can say nothing of these frames:"),
        ProfilesNotComparableException => (ExitStatus.Refused, "these profiles cannot be compared:"),
        FindingsNotAcceptedException => (ExitStatus.Refused, "this profile has findings that nobody accepted; nothing was written. --accept-findings publishes it with them:"),
        ShelfException e => (ExitStatus.File, $"{e.Message} {e.Remedy}"),
        KeyFileException e => (ExitStatus.File, $"{e.Message} {e.Remedy}"),
        UnsupportedFileException e => (ExitStatus.File, $"{e.Message} {e.Remedy}"),
        ImagingLibraryMissingException e => (ExitStatus.File, $"{e.Message} {e.Remedy}"),
        PlanFormatException e => (ExitStatus.File, $"{e.Message} {e.Remedy}"),
        ProfileFormatException e => (ExitStatus.File, $"{e.Message} {e.Remedy}"),
        MalformedFileException or FontsMissingException or IOException or UnauthorizedAccessException => (ExitStatus.File, fault.Message),
        _ => (
            ExitStatus.ProgramFault,
            $"the program itself failed ({fault.GetType().Name}: {OneLine(fault.Message)}). Please report it with the command that you ran; your frames are untouched."),
    };

    // Several files may fail at once: what the user cancelled is told before what that broke.
    private static Exception Foremost(AggregateException many)
    {
        IReadOnlyList<Exception> all = many.Flatten().InnerExceptions;
        return all.FirstOrDefault(e => e is OperationCanceledException) ?? all[0];
    }

    private static string OneLine(string text) => string.Join(' ', text.Split('\n', '\r').Select(l => l.Trim()).Where(l => l.Length > 0));
}
