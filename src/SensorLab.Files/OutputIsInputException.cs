namespace SensorLab.Files;

/// <summary>An output would replace what is read, or one that is no file of ours to replace.</summary>
/// <param name="message">Which output, and what it is.</param>
public sealed class OutputIsInputException(string message) : IOException(message);
