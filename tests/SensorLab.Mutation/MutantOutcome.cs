namespace SensorLab.Mutation;

/// <summary>What became of a mutant.</summary>
/// <param name="Mutant">The mutant.</param>
/// <param name="KilledBy">The class whose tests failed with it; null where it survived.</param>
/// <param name="Classes">Classes of tests that come by it.</param>
internal sealed record MutantOutcome(Mutant Mutant, string? KilledBy, int Classes);
