namespace SensorLab.Reports.Tables;

/// <summary>What the cells of a column hold.</summary>
internal enum ColumnKind
{
    /// <summary>Words that may be broken between lines.</summary>
    Words,

    /// <summary>A short word that stays on one line.</summary>
    Word,

    /// <summary>A number.</summary>
    Number,

    /// <summary>A figure: an estimate with its interval, or a bound.</summary>
    Figure,
}
