using SensorLab.Reports.Drawing;
using SensorLab.Reports.Tables;

namespace SensorLab.Reports.Documents;

/// <summary>A chart with its sentence, its reading and its data.</summary>
/// <param name="Name">Its name as a file.</param>
/// <param name="Drawing">The chart without its own heading.</param>
/// <param name="Narrow">Its form for a phone.</param>
/// <param name="Reading">What its quantities are, with the standards' clauses.</param>
/// <param name="Data">The figures that it shows.</param>
internal sealed record ChartBlock(string Name, ChartDrawing Drawing, ChartDrawing Narrow, IReadOnlyList<FigureDefinition> Reading, ReportTable Data) : ReportBlock;
