namespace SensorLab.Publishing.Archive;

/// <summary>A stretch of a bundle's bytes and what it is.</summary>
/// <param name="Offset">Where it begins.</param>
/// <param name="Path">The file that it belongs to; null for the bundle's end.</param>
/// <param name="What">What it is, in words.</param>
internal readonly record struct ArchivePlace(long Offset, string? Path, string What);
