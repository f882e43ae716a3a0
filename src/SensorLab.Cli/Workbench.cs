using SensorLab.Assignment;
using SensorLab.Confirms;
using SensorLab.Debrief;
using SensorLab.Debriefs;
using SensorLab.Intakes;
using SensorLab.Planning.Plans;
using SensorLab.Retest;
using SensorLab.Retest.Confirm;
using SensorLab.Plans;
using SensorLab.Profiles;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;
using SensorLab.Reports;
using SensorLab.Simulation.Rehearsals;

namespace SensorLab.Cli;

/// <summary>What the commands call: the library's doors, so that tests can put others in their place.</summary>
internal sealed record Workbench
{
    /// <summary>The library itself.</summary>
    public static Workbench Library { get; } = new() { SettingsPath = Settings.PathOfUser(), BenchFolder = Settings.DataFolderOfUser("bench"), ShelfFolder = Settings.DataFolderOfUser("shelf") };

    /// <summary>Where the user's settings lie; empty for none.</summary>
    public string SettingsPath { get; init; } = string.Empty;

    /// <summary>Where the bench remembers sets and keeps results; empty for nowhere.</summary>
    public string BenchFolder { get; init; } = string.Empty;

    /// <summary>Where the shelf is that nobody names; empty for nowhere.</summary>
    public string ShelfFolder { get; init; } = string.Empty;

    /// <summary>Measures a frame set.</summary>
    public Func<string, CharacterisationOptions, IProgress<CharacterisationProgress>, CancellationToken, Task<SensorProfile>> Characterise { get; init; } =
        Characterisation.RunAsync;

    /// <summary>Looks a frame set over.</summary>
    public Func<string, CharacterisationOptions, IProgress<CharacterisationProgress>, CancellationToken, Task<IntakeReport>> LookOver { get; init; } =
        Intake.RunAsync;

    /// <summary>Assigns a card's frames.</summary>
    public Func<string, CardReading, int, IProgress<CharacterisationProgress>, CancellationToken, Task<CardAssignment>> Assign { get; init; } =
        CardAssignment.RunAsync;

    /// <summary>Debriefs a finished assignment.</summary>
    public Func<SensorProfile, string, int, IProgress<CharacterisationProgress>, CancellationToken, Task<DayDebrief>> Debrief { get; init; } =
        DebriefRun.RunAsync;

    /// <summary>Confirms a profile by a job's frames.</summary>
    public Func<SensorProfile, string, int, IProgress<CharacterisationProgress>, CancellationToken, Task<(ConfirmResult Result, IReadOnlyList<Finding> Findings)>> Confirm { get; init; } =
        ConfirmRun.RunAsync;

    /// <summary>Makes the files of a debrief.</summary>
    public Func<DayDebrief, IReadOnlyList<ReportFile>> DebriefFiles { get; init; } = DebriefWriter.Files;

    /// <summary>Compares a frame set with its plan.</summary>
    public Func<string, ShotPlan, int, CancellationToken, Task<PlanComparison>> ComparePlan { get; init; } = PlanReview.RunAsync;

    /// <summary>The files below a frame set's folder, whatever they are.</summary>
    public Func<string, IEnumerable<string>> FilesOf { get; init; } = FrameSetFiles.Of;

    /// <summary>Requires what thumbnails are drawn with.</summary>
    public Action RequireImaging { get; init; } = FieldThumbnail.RequireLibrary;

    /// <summary>Draws the field of a frame set that was looked over, as PNG.</summary>
    public Func<string, IntakeReport, CancellationToken, byte[]> DrawField { get; init; } = FieldThumbnail.Png;

    /// <summary>Simulates a frame set.</summary>
    public Func<string, RehearsalOptions, IProgress<RehearsalProgress>, CancellationToken, IReadOnlyList<IsoTruth>> Rehearse { get; init; } =
        Rehearsal.Write;

    /// <summary>Requires what reports are drawn with.</summary>
    public Action RequireFonts { get; init; } = ReportWriter.RequireFonts;

    /// <summary>Makes the files of a profile's report.</summary>
    public Func<SensorProfile, CancellationToken, IReadOnlyList<ReportFile>> ReportFiles { get; init; } = ReportWriter.Files;

    /// <summary>Makes the files of a shot list.</summary>
    public Func<ShotPlan, IReadOnlyList<ReportFile>> PlanFiles { get; init; } = PlanWriter.Files;

    /// <summary>Makes the files of a re-test's report.</summary>
    public Func<RetestResult, CancellationToken, IReadOnlyList<ReportFile>> RetestFiles { get; init; } = RetestReportWriter.Files;

    /// <summary>The pocket sheet as a page.</summary>
    public Func<IReadOnlyList<SensorProfile>, byte[]> PocketPage { get; init; } = PocketWriter.Html;

    /// <summary>The pocket sheet on paper.</summary>
    public Func<IReadOnlyList<SensorProfile>, CancellationToken, byte[]> PocketPaper { get; init; } = PocketWriter.Pdf;

    /// <summary>A swatch as a page.</summary>
    public Func<SensorProfile, int, Delivery?, byte[]> SwatchPage { get; init; } = SwatchWriter.Html;

    /// <summary>A swatch on paper.</summary>
    public Func<SensorProfile, int, Delivery?, CancellationToken, byte[]> SwatchPaper { get; init; } = SwatchWriter.Pdf;

    /// <summary>Publishes a profile as a bundle.</summary>
    public Func<SensorProfile, PublishingOptions, CancellationToken, PublishedBundle> Publish { get; init; } = Publication.Make;

    /// <summary>Makes a key pair and writes both halves.</summary>
    public Func<string, CancellationToken, PublicKey> MakeKeys { get; init; } = KeyPairFiles.Create;
}
