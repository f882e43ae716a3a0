namespace SensorLab.Mutation;

/// <summary>What a mutant changes.</summary>
internal enum MutantKind
{
    /// <summary>A named constant, times or by a thousand.</summary>
    Threshold,

    /// <summary>A real number in a formula, times or by a thousand.</summary>
    Factor,

    /// <summary>A comparison turned round, an equality swapped, a condition negated.</summary>
    Comparison,

    /// <summary>A sum for a difference, a sign taken off, the larger for the smaller of two.</summary>
    Sign,
}
