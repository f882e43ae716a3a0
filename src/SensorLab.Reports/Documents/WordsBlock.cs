namespace SensorLab.Reports.Documents;

/// <summary>A paragraph.</summary>
/// <param name="Words">Its words.</param>
/// <param name="IsQuiet">Whether it is set small.</param>
internal sealed record WordsBlock(string Words, bool IsQuiet = false) : ReportBlock;
