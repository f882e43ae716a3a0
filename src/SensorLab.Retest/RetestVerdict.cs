namespace SensorLab.Retest;

/// <summary>What a comparison of two figures, or of two whole profiles, comes to.</summary>
public enum RetestVerdict
{
    /// <summary>The difference lies within the margin, at the family's 5 %.</summary>
    Equivalent,

    /// <summary>The difference lies beyond the margin, at the family's 2.5 %.</summary>
    Changed,

    /// <summary>The uncertainty leaves both open.</summary>
    Undecided,

    /// <summary>The figure has no margin: it is listed and not judged.</summary>
    NotJudged,
}
