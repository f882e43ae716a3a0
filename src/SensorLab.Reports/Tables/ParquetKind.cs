namespace SensorLab.Reports.Tables;

/// <summary>The plain types that every reader of Parquet knows.</summary>
internal enum ParquetKind
{
    /// <summary>True or false.</summary>
    Boolean,

    /// <summary>A whole number of 32 bits.</summary>
    Int32,

    /// <summary>A number of 64 bits.</summary>
    Double,

    /// <summary>Text in UTF-8.</summary>
    Text,

    /// <summary>A moment in UTC, to the millisecond.</summary>
    Moment,
}
