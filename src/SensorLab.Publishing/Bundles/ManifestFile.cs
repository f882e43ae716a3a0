namespace SensorLab.Publishing.Bundles;

/// <summary>A file of a bundle, as its manifest has it.</summary>
/// <param name="Path">Its path in the bundle, with forward slashes.</param>
/// <param name="SizeBytes">Its size in bytes.</param>
/// <param name="Sha256">SHA-256 of its content, lower-case hexadecimal (FIPS 180-4).</param>
public sealed record ManifestFile(string Path, long SizeBytes, string Sha256);
