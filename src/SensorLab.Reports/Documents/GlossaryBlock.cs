using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>What words and figures mean, each once.</summary>
/// <param name="Terms">Words of the trade and of the standards.</param>
/// <param name="Figures">The figures.</param>
internal sealed record GlossaryBlock(IReadOnlyList<(string Term, string Words)> Terms, IReadOnlyList<FigureDefinition> Figures) : ReportBlock;
