namespace SensorLab.Files;

/// <summary>What is wrong with a document, and where.</summary>
/// <param name="Path">The property's path, as <c>isoProfiles[0].latitude.aboveEv</c>; empty for the document itself.</param>
/// <param name="Reason">What is wrong, to follow the path in a sentence.</param>
public sealed record DocumentFault(string Path, string Reason);
