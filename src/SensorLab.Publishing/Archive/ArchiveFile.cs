namespace SensorLab.Publishing.Archive;

/// <summary>A file of a bundle.</summary>
/// <param name="Path">Its path in the bundle, with forward slashes.</param>
/// <param name="Bytes">Its content.</param>
internal readonly record struct ArchiveFile(string Path, ReadOnlyMemory<byte> Bytes);
