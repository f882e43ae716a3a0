namespace SensorLab.Shelf;

/// <summary>The shelf cannot do what is asked: its index is damaged or of a later version, busy for too long, or its library is not here.</summary>
/// <remarks>The profiles themselves are plain files, and whole.</remarks>
public sealed class ShelfException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is the matter.</param>
    /// <param name="remedy">What to do.</param>
    /// <param name="why">What it follows from; null where nothing.</param>
    public ShelfException(string message, string remedy, Exception? why = null)
        : base(message, why) => Remedy = remedy;

    /// <summary>What to do.</summary>
    public string Remedy { get; }
}
