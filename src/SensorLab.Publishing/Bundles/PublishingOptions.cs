using SensorLab.Publishing.Keys;

namespace SensorLab.Publishing.Bundles;

/// <summary>How a profile is published.</summary>
public sealed record PublishingOptions
{
    /// <summary>Whether serial number, file names and times are left out; see <see cref="AnonymousProfile"/>.</summary>
    public bool IsAnonymous { get; init; }

    /// <summary>Whether a profile with warnings or refused ISOs is published with them.</summary>
    public bool AcceptsFindings { get; init; }

    /// <summary>The key that signs; null for none. It stays the caller's to dispose of.</summary>
    public SigningKey? Key { get; init; }
}
