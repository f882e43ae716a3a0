using System.Globalization;
using SensorLab.Planning.Plans;
using SensorLab.Profiles;

namespace SensorLab.Cli.Presentation;

/// <summary>A plan in 80 columns: what it takes, what each ISO is shot with, what it cannot reach, what it should give.</summary>
internal static class PlanText
{
    private const string Indent = "  ";

    /// <summary>The lines.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="folder">Where it was written.</param>
    public static IReadOnlyList<string> Lines(ShotPlan plan, string folder) =>
    [
        .. WrappedText.Lines(Text($"{plan.Title} (protocol {plan.Protocol} {plan.ProtocolVersion}): {plan.Summary.Frames} frames, about {plan.Summary.Minutes} minutes, {plan.Summary.CardGigabytes:0.#} GB."), string.Empty, Indent),
        .. plan.Sets.Count > 1 ? plan.Sets.SelectMany(s => WrappedText.Lines($"{s.Name}: {s.When}.", "- ", Indent)).Prepend(Text($"To be shot {plan.Sets.Count} times:")) : [],
        .. WrappedText.Lines(plan.Preparations[0], string.Empty, Indent),
        string.Empty,
        "   ISO  Frames  Metered    Shutter           EV from grey",
        .. plan.Isos.Select(iso => IsoLine(plan, iso)),
        string.Empty,
        .. plan.Notices.SelectMany(n => WrappedText.Lines(n.Message, string.Empty, Indent).Concat(WrappedText.Lines("Way out: " + n.Remedy, Indent, Indent))),
        .. plan.Notices.Count > 0 ? [string.Empty] : Array.Empty<string>(),
        .. PredictionLines(plan),
        string.Empty,
        Text($"Shot list: {Path.Combine(folder, "plan.html")} for the phone, plan.pdf to print, plan.csv, plan.json"),
    ];

    private static string IsoLine(ShotPlan plan, int iso)
    {
        PlanStep[] own = [.. plan.Steps.Where(s => s.Iso == iso)];
        PlanStep[] lit = [.. own.Where(s => RoleName.IsLit(s.Role))];
        PlanStep metered = own.First(s => s.Role == RoleName.Metered);
        PlanStep fastest = lit.MinBy(s => s.ExposureSeconds)!;
        PlanStep slowest = lit.MaxBy(s => s.ExposureSeconds)!;
        string steps = string.Join(", ", lit.Select(s => s.LightStep).OfType<string>().Distinct());
        return Text($"{iso,6}  {own.Sum(s => s.Frames),6}  {metered.Shutter,-9}  {fastest.Shutter + " to " + slowest.Shutter,-16}  {lit.Min(s => s.Ev):+0.0;-0.0} to {lit.Max(s => s.Ev):+0.0;-0.0}{(steps.Length > 0 ? $"; step {steps}" : string.Empty)}");
    }

    private static IEnumerable<string> PredictionLines(ShotPlan plan)
    {
        if (plan.Prediction.Count == 0)
        {
            return ["Nothing is predicted: noise below half a code step, or ISOs not in the profile."];
        }

        bool isNamed = !plan.IsForTypicalBody;
        return
        [
            isNamed
                ? "It should give, ± half the 95 % interval that a set shot anew would respect:"
                : "How sure it should be, as half the 95 % interval that a set shot anew would",
            .. isNamed ? Array.Empty<string>() : ["respect; the figures themselves are your body's, which nobody has named yet:"],
            "   ISO  Gain e-/DN       Read noise e-    Clip, EV          SNR 10, EV",
            .. plan.Prediction.Select(p => Text($"{p.Iso,6}  {Cell(p.GainElectronPerDn, isNamed),-16} {Cell(p.ReadNoiseElectron, isNamed),-16} {(isNamed ? StopText.FromGrey(p.AboveEv) : Cell(p.AboveEv, false)),-17} {(isNamed ? StopText.BelowGrey(p.BelowEv) : Cell(p.BelowEv, false))}")),
            .. WrappedText.Lines(Text($"What this metering cannot decide: between two such sets, moves from middle grey of less than {Figure.NormalFactor95 * Math.Sqrt(2) * plan.Prediction[0].MeterStandardUncertaintyEv:0.00} EV. Gain, noise and saturation need no meter and are surer."), string.Empty, Indent),
        ];
    }

    /// <summary>A figure of a body that was measured; of one that was not, only how sure it will be, as a share or in stops.</summary>
    private static string Cell(Figure? figure, bool isNamed)
    {
        if (figure?.OfBody() is not { Value: { } value, Upper95: { } upper })
        {
            return "-";
        }

        double half = upper - value;
        if (!isNamed)
        {
            return figure.Budget!.Parts.Any(p => p.Source == BudgetSource.Meter) ? Text($"±{Math.Ceiling(half * 100) / 100:F2}") : Text($"±{Math.Ceiling(half / value * 1000) / 10:F1} %");
        }

        int decimals = half > 0 ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(half)), 0, 5) : 3;
        string format = "F" + decimals.ToString(CultureInfo.InvariantCulture);
        double rounded = Math.Ceiling(half * Math.Pow(10, decimals)) / Math.Pow(10, decimals);
        return $"{value.ToString(format, CultureInfo.InvariantCulture)} ±{rounded.ToString(format, CultureInfo.InvariantCulture)}";
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
