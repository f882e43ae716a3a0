namespace SensorLab.Planning.Protocols;

/// <summary>One shooting of a shot list.</summary>
/// <param name="Name">What the set is called.</param>
/// <param name="When">When it is shot.</param>
public sealed record ProtocolSet(string Name, string When);
