namespace SensorLab.Retest;

/// <summary>What a comparison of two figures, or of two whole profiles, comes to.</summary>
public enum RetestVerdict
{
    /// <summary>The whole interval of the difference lies within the margin.</summary>
    Equivalent,

    /// <summary>The whole interval of the difference lies beyond the margin.</summary>
    Changed,

    /// <summary>The interval leaves both open.</summary>
    Undecided,

    /// <summary>The figure has no margin: it is listed and not judged.</summary>
    NotJudged,
}
