namespace SensorLab.FlawMatrix.Foreign;

/// <summary>What a flaw changes in what is owed.</summary>
internal sealed record ForeignTerms
{
    /// <summary>What stops may be off by, whatever their uncertainty.</summary>
    public const double ToleranceEv = 0.03;

    /// <summary>What the bright end may be off by, whatever its uncertainty; 0 where that alone counts.</summary>
    public double AboveToleranceEv { get; init; } = ToleranceEv;

    /// <summary>Channels whose changed codes are what is measured, so that no figure of the unchanged ones is owed.</summary>
    public Func<string, bool> IsOwnLaw { get; init; } = _ => false;
}
