using SensorLab.Intakes;
using SensorLab.Planning.Retest;
using SensorLab.Profiles;
using SensorLab.Reports;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Cli;

/// <summary>What the commands call: the library's doors, so that tests can put others in their place.</summary>
internal sealed record Workbench
{
    /// <summary>The library itself.</summary>
    public static Workbench Library { get; } = new();

    /// <summary>Measures a frame set.</summary>
    public Func<string, CharacterisationOptions, IProgress<CharacterisationProgress>, CancellationToken, Task<SensorProfile>> Characterise { get; init; } =
        Characterisation.RunAsync;

    /// <summary>Looks a frame set over.</summary>
    public Func<string, CharacterisationOptions, IProgress<CharacterisationProgress>, CancellationToken, Task<IntakeReport>> LookOver { get; init; } =
        Intake.RunAsync;

    /// <summary>Requires what thumbnails are drawn with.</summary>
    public Action RequireImaging { get; init; } = FieldThumbnail.RequireLibrary;

    /// <summary>Draws the field of a frame set that was looked over, as PNG.</summary>
    public Func<string, IntakeReport, CancellationToken, byte[]> DrawField { get; init; } = FieldThumbnail.Png;

    /// <summary>Simulates a frame set.</summary>
    public Func<string, RehearsalOptions, IProgress<RehearsalProgress>, CancellationToken, IReadOnlyList<IsoTruth>> Rehearse { get; init; } =
        Rehearsal.Write;

    /// <summary>Writes a profile's report into a folder.</summary>
    public Func<SensorProfile, string, CancellationToken, IReadOnlyList<string>> WriteReport { get; init; } = ReportWriter.Write;

    /// <summary>Writes the report of a re-test into a folder.</summary>
    public Action<RetestResult, string, CancellationToken> WriteRetestReport { get; init; } = RetestReportWriter.Write;
}
