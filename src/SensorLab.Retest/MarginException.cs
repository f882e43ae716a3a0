namespace SensorLab.Retest;

/// <summary>A margin that no figure can have.</summary>
/// <param name="message">What is wrong and what to write instead.</param>
public sealed class MarginException(string message) : Exception(message);
