namespace SensorLab.Shelf;

/// <summary>A text that names no body of the shelf, or more than one.</summary>
public sealed class BodyUnknownException : Exception
{
    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is the matter.</param>
    /// <param name="bodies">The bodies that could be meant.</param>
    public BodyUnknownException(string message, IReadOnlyList<ShelfBody> bodies)
        : base(message) => Bodies = bodies;

    /// <summary>The bodies that could be meant: those that fit, or all of a small shelf.</summary>
    public IReadOnlyList<ShelfBody> Bodies { get; }
}
