namespace SensorLab.Files;

/// <summary>Writes a file whole or not at all.</summary>
public static class WholeFile
{
    /// <summary>
    /// Writes to a staging folder beside the target, flushes it to the disk and moves it over the target. On any failure
    /// nothing is left of it and an existing target is untouched.
    /// </summary>
    /// <param name="path">The target; a symbolic link is followed.</param>
    /// <param name="write">Writes the content.</param>
    /// <param name="cancellation">Cancels up to the moment before the move.</param>
    /// <exception cref="IOException">The target's folder is missing, the target is a device, or the file cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The target is a folder, or may not be written.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing half-written is left.</exception>
    public static void Write(string path, Action<Stream> write, CancellationToken cancellation = default) =>
        new WholeOutput().WithFile(path, write).PutInPlace(cancellation);

    /// <summary>Writes bytes whole or not at all.</summary>
    /// <param name="path">The target, as for the other way of writing.</param>
    /// <param name="bytes">The content.</param>
    /// <param name="cancellation">Cancels up to the moment before the move.</param>
    /// <exception cref="IOException">The target's folder is missing, the target is a device, or the file cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The target is a folder, or may not be written.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing half-written is left.</exception>
    public static void Write(string path, ReadOnlyMemory<byte> bytes, CancellationToken cancellation = default) =>
        Write(path, stream => stream.Write(bytes.Span), cancellation);
}
