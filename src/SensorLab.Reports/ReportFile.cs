namespace SensorLab.Reports;

/// <summary>A file of a report.</summary>
/// <param name="Name">Its path in the report's folder, with forward slashes.</param>
/// <param name="Bytes">Its content.</param>
public readonly record struct ReportFile(string Name, ReadOnlyMemory<byte> Bytes);
