using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using SensorLab.Profiles;
using SensorLab.Profiles.Placement;

namespace SensorLab.Retest;

/// <summary>Writes what came of a comparison as JSON, in the contract's form.</summary>
public static class RetestResultWriter
{
    private static readonly JsonSerializerOptions Format = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes a result as UTF-8 JSON, lines ended by a line feed.</summary>
    /// <param name="result">The result.</param>
    /// <param name="target">Where to; left open.</param>
    /// <exception cref="IOException">The stream cannot be written.</exception>
    public static void Write(RetestResult result, Stream target) =>
        target.Write([.. JsonSerializer.SerializeToUtf8Bytes(Document.Of(result), Format), (byte)'\n']);

    /// <summary>A verdict in the contract's words.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string WordOf(RetestVerdict verdict) => verdict switch
    {
        RetestVerdict.Equivalent => "equivalent",
        RetestVerdict.Changed => "changed",
        RetestVerdict.Undecided => "undecided",
        _ => "not judged",
    };

    private static string WordOf(MarginUnit unit) => unit switch
    {
        MarginUnit.Relative => "relative",
        MarginUnit.Ev => "ev",
        _ => "dn",
    };

    private sealed record Document(
        string Verdict,
        string MeterFreeVerdict,
        string MeterTiedVerdict,
        IReadOnlyList<string> Assumes,
        IReadOnlyList<FigureEntry> Figures,
        IReadOnlyList<ChangeEntry> Changes,
        [property: JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)] IReadOnlyList<DialIn>? DialIn)
    {
        public static Document Of(RetestResult result) => new(
            WordOf(result.Verdict),
            WordOf(result.MeterFreeVerdict),
            WordOf(result.MeterTiedVerdict),
            result.Assumes,
            [.. result.Figures.Select(f => new FigureEntry(
                f.Address.Iso, f.Address.Channel, f.Address.Name, f.Before, f.After, f.Difference, f.Margin, WordOf(f.Unit), WordOf(f.Verdict), f.FurtherPairs, f.FurtherPairsReason))],
            [.. result.Changes.Select(c => new ChangeEntry(c.Code, c.Iso, c.Message))],
            result.IsTwoBodies ? result.DialIn : null);
    }

    private sealed record FigureEntry(
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

    private sealed record ChangeEntry(string Code, int? Iso, string Message);
}
