namespace SensorLab.Publishing.Verification;

/// <summary>A reason why a bundle is not valid.</summary>
/// <param name="Code">One of <see cref="BundleFaultCode"/>.</param>
/// <param name="File">The file that it concerns, as the archive calls it; null for the bundle as a whole.</param>
/// <param name="Offset">Where in the bundle, in bytes from its start; null where it has no one place.</param>
/// <param name="Message">What is the matter, in a sentence.</param>
public sealed record BundleFault(string Code, string? File, long? Offset, string Message);
