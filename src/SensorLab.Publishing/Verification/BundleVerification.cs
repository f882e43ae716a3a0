using SensorLab.Profiles;
using SensorLab.Publishing.Bundles;
using SensorLab.Publishing.Keys;

namespace SensorLab.Publishing.Verification;

/// <summary>What was found of a bundle.</summary>
/// <param name="Faults">Every reason why it is not valid; none where it is.</param>
/// <param name="SizeBytes">The bundle's size; null where it is larger than any bundle, or a folder.</param>
/// <param name="Manifest">Its manifest; null where that could not be read.</param>
/// <param name="ManifestSha256">SHA-256 of the manifest, lower-case hexadecimal: the same for every bundle of the same files, signed or not.</param>
/// <param name="Profile">Its profile; null where that could not be read.</param>
/// <param name="IsSigned">Whether there is a signature, valid or not.</param>
/// <param name="Signer">The key that a valid signature is of; null where there is none.</param>
/// <param name="IsTrusted">Whether the trusted key signed; null where none was named.</param>
public sealed record BundleVerification(
    IReadOnlyList<BundleFault> Faults,
    long? SizeBytes,
    BundleManifest? Manifest,
    string? ManifestSha256,
    SensorProfile? Profile,
    bool IsSigned,
    PublicKey? Signer,
    bool? IsTrusted)
{
    /// <summary>What is true of it and makes it no less whole: packed anew, or unpacked.</summary>
    public IReadOnlyList<BundleFault> Notes { get; init; } = [];

    /// <summary>Whether nothing is wrong: whole and, where a trusted key was named, signed by it.</summary>
    public bool IsValid => Faults.Count == 0;

    /// <summary>Whether every byte is as published, whoever signed it.</summary>
    public bool IsWhole => Faults.All(f => f.Code is BundleFaultCode.SignatureMissing or BundleFaultCode.SignatureUntrusted);
}
