namespace SensorLab.Planning.Plans;

/// <summary>A plan was asked for what cannot be.</summary>
/// <param name="reason">What, and how it is put right.</param>
public sealed class PlanUsageException(string reason) : Exception(reason);
