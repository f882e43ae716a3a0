namespace SensorLab.Measurement.Model;

/// <summary>DSNU and PRNU in total and of rows and columns; null where the levels do not determine them.</summary>
internal sealed record FixedPatternSummary(FixedPattern? Total, FixedPattern? Rows, FixedPattern? Columns);
