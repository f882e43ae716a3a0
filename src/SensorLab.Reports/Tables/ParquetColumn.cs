namespace SensorLab.Reports.Tables;

/// <summary>A column of a Parquet file.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Kind">What it holds.</param>
/// <param name="Values">A value a row, of the kind; null where there is none.</param>
internal sealed record ParquetColumn(string Name, ParquetKind Kind, IReadOnlyList<object?> Values);
