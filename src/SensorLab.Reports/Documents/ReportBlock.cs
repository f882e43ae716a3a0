namespace SensorLab.Reports.Documents;

/// <summary>A piece of a report; page and print show the same pieces.</summary>
internal abstract record ReportBlock;
