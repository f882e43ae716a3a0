using System.Text.Json.Serialization;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Retest;

/// <summary>The document of a comparison, in the contract's form.</summary>
internal sealed record RetestDocument(
    string Verdict,
    string MeterFreeVerdict,
    string MeterTiedVerdict,
    IReadOnlyList<string> Assumes,
    IReadOnlyList<RetestDocument.FigureEntry> Figures,
    IReadOnlyList<RetestDocument.ChangeEntry> Changes,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] IReadOnlyList<DialIn>? DialIn,
    RetestDocument.MondayEntry OnMonday)
{
    /// <summary>The document of a result.</summary>
    public static RetestDocument Of(RetestResult result) => new(
        RetestResultWriter.WordOf(result.Verdict),
        RetestResultWriter.WordOf(result.MeterFreeVerdict),
        RetestResultWriter.WordOf(result.MeterTiedVerdict),
        result.Assumes,
        [.. result.Figures.Select(f => new FigureEntry(
            f.Address.Iso, f.Address.Channel, f.Address.Name, f.Before, f.After, f.Difference, f.Margin, WordOf(f.Unit), RetestResultWriter.WordOf(f.Verdict), f.FurtherPairs, f.FurtherPairsReason))],
        [.. result.Changes.Select(c => new ChangeEntry(c.Code, c.Iso, c.Message))],
        result.IsTwoBodies ? result.DialIn : null,
        new MondayEntry(RetestResultWriter.WordOf(result.OnMonday.Recommendation), result.OnMonday.Sentence, result.OnMonday.Tones, result.OnMonday.CannotDecide, result.OnMonday.Ways));

    private static string WordOf(MarginUnit unit) => unit switch
    {
        MarginUnit.Relative => "relative",
        MarginUnit.Ev => "ev",
        _ => "dn",
    };

    internal sealed record FigureEntry(
        int Iso,
        string? Channel,
        string Figure,
        Figure Before,
        Figure After,
        [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] Figure? Difference,
        double? Margin,
        string MarginUnit,
        string Verdict,
        int? FurtherPairs,
        string? FurtherPairsReason);

    internal sealed record MondayEntry(string Recommendation, string Sentence, IReadOnlyList<string> Tones, string? CannotDecide, IReadOnlyList<string> Ways);

    internal sealed record ChangeEntry(string Code, int? Iso, string Message);
}
