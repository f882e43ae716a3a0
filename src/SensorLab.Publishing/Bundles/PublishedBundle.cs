using SensorLab.Profiles;
using SensorLab.Publishing.Keys;

namespace SensorLab.Publishing.Bundles;

/// <summary>A bundle that was made.</summary>
/// <param name="Bytes">The zip archive.</param>
/// <param name="Manifest">What it holds.</param>
/// <param name="Signer">The key that signed it; null where it is not signed.</param>
/// <param name="Profile">The profile in it.</param>
public sealed record PublishedBundle(ReadOnlyMemory<byte> Bytes, BundleManifest Manifest, PublicKey? Signer, SensorProfile Profile);
