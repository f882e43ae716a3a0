namespace SensorLab.Simulation.Flaws;

/// <summary>A flaw as the catalogue lists it.</summary>
/// <param name="Code">The finding's code.</param>
/// <param name="Meaning">What its size means.</param>
/// <param name="Size">Unit, default and limits of its size.</param>
public sealed record FlawDescription(string Code, string Meaning, FlawSize Size);
