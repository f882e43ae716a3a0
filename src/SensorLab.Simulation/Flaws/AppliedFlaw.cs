namespace SensorLab.Simulation.Flaws;

/// <summary>A flaw and its size.</summary>
internal readonly record struct AppliedFlaw(IFlaw Flaw, double Size);
