namespace SensorLab.Profiles;

/// <summary>How a light moves the channels against green.</summary>
/// <param name="Name">The light's name.</param>
/// <param name="ChannelEv">EV of each channel relative to its middle grey under the metered light, green at 0.</param>
public sealed record LightRatios(string Name, IReadOnlyDictionary<string, double> ChannelEv);
