namespace SensorLab.Cli;

/// <summary>The command's words are well-formed, but do not go together.</summary>
internal sealed class UsageException(string reason) : Exception(reason);
