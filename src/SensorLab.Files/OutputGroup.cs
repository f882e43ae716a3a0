namespace SensorLab.Files;

/// <summary>What goes into one folder.</summary>
/// <param name="Folder">The folder's full path; it need not be there.</param>
/// <param name="Items">The files and folders.</param>
internal sealed record OutputGroup(string Folder, IReadOnlyList<OutputItem> Items);
