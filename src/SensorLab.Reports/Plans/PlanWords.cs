using System.Globalization;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;
using SensorLab.Reports.Charts;

namespace SensorLab.Reports.Plans;

/// <summary>A plan's parts in words, the same for page and paper.</summary>
internal static class PlanWords
{
    /// <summary>The heading.</summary>
    public static string Title(ShotPlan plan) => $"{plan.Title}: shot list";

    /// <summary>What it takes, on one line.</summary>
    public static string Summary(ShotPlan plan) => string.Create(
        CultureInfo.InvariantCulture,
        $"{plan.Summary.Frames} frames, about {plan.Summary.Minutes} minutes, {plan.Summary.CardGigabytes:0.#} GB on the card; {plan.Summary.DialTurns} turns of a dial, {plan.Summary.LightMoves} move{(plan.Summary.LightMoves == 1 ? string.Empty : "s")} of lamp or filter.");

    /// <summary>Protocol and light, on one line.</summary>
    public static string Conditions(ShotPlan plan) => string.Create(
        CultureInfo.InvariantCulture,
        $"Protocol {plan.Protocol}, version {plan.ProtocolVersion}; {(plan.MainsHz is { } hz ? $"lamps on {hz} Hz" : "light that does not pulse")}.");

    /// <summary>What a step's frames are, with the place on the EV axis.</summary>
    public static string Kind(PlanStep step) => step switch
    {
        { Role: RoleName.Dark } => "dark",
        { Role: RoleName.Metered, Ev: > 0 } => "metered, upper edge of zero",
        { Role: RoleName.Metered } => "metered, lower edge of zero",
        { Role: RoleName.Light, Ev: > 0 } => $"{step.Light}, upper edge of zero",
        { Role: RoleName.Light } => $"{step.Light}, lower edge of zero",
        { Ev: { } ev } => $"bracket {Signed(ev)} EV",
        _ => step.Role,
    };

    /// <summary>What a step's frames carry in frames.csv; empty for nothing.</summary>
    public static string Column(PlanStep step) => string.Join(
        ", ",
        new[] { step.LightStep is { } light ? $"lightStep {light}" : null, step.Look }.OfType<string>());

    /// <summary>The exposure as the camera shows it.</summary>
    public static string Exposure(PlanStep step) => step.Shutter.Contains('/', StringComparison.Ordinal) ? step.Shutter : step.Shutter + " s";

    /// <summary>Where a step belongs: its heading in the list.</summary>
    public static string Group(PlanStep step) => step.Role switch
    {
        RoleName.Dark => "Dark frames",
        RoleName.Light => $"Under {step.Light}",
        _ => string.Create(CultureInfo.InvariantCulture, $"ISO {step.Iso}"),
    };

    /// <summary>What to do before a step, dials first, in one paragraph.</summary>
    public static string ToDo(PlanStep step) => string.Join(' ', [.. step.Dials is { } dials ? new[] { $"Set {dials}." } : [], .. step.Actions]);

    /// <summary>The prediction's caption.</summary>
    public static string PredictionCaption(ShotPlan plan) => plan.Prediction.Count == 0
        ? "Nothing is predicted: read noise below half a code step, or an ISO that the earlier profile does not hold."
        : plan.IsForTypicalBody
            ? "How sure the figures should be: half of the 95 % interval that a set shot anew would respect. The figures themselves are your body's, which nobody has named yet; --from takes an earlier profile of it."
            : "What the set should give: ± is half of the 95 % interval that a set shot anew would respect, with noise, meter, shutter, lamp, diaphragm and temperature.";

    private static string Signed(double ev) => EvText.Signed(ev, 1);
}
