namespace SensorLab.Mutation;

/// <summary>A class of tests, as it ran without a mutant.</summary>
/// <param name="Assembly">Where it lies.</param>
/// <param name="Name">Its full name.</param>
/// <param name="Duration">How long it took.</param>
/// <param name="Places">The mutants whose places it came by.</param>
internal sealed record TestClass(TestAssembly Assembly, string Name, TimeSpan Duration, IReadOnlySet<int> Places);
