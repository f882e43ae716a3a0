namespace SensorLab.Files;

/// <summary>A document is not sound.</summary>
/// <param name="message">What is wrong and where, as a sentence.</param>
/// <param name="innerException">What showed it; null for nothing.</param>
public sealed class DocumentException(string message, Exception? innerException = null) : Exception(message, innerException);
