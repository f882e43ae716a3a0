using System.Globalization;

namespace SensorLab.Files;

/// <summary>Held on a folder by one run at a time, of any process; a run that is killed lets go of it.</summary>
public sealed class FolderLock : IDisposable
{
    private const string Prefix = ".sensorlab-";

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(5);

    // A holder may end between a failed attempt and the look whether it is there; a disk that refuses goes on refusing.
    private const int MostFailures = 20;

    private readonly FileStream _file;

    /// <summary>Takes the lock of a folder, and waits for it.</summary>
    /// <param name="folder">The folder, which is there and may be written to.</param>
    /// <param name="purpose">What is done under it, a word of small letters: locks for other purposes are others.</param>
    /// <param name="longestWait">How long to wait for a run that holds it.</param>
    /// <param name="cancellation">Ends the waiting.</param>
    /// <exception cref="IOException">Another run holds it for too long, or it cannot be made.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="OperationCanceledException">Cancelled while waiting.</exception>
    public FolderLock(string folder, string purpose, TimeSpan longestWait, CancellationToken cancellation = default)
    {
        string path = Path.Combine(folder, Prefix + purpose);
        long start = Environment.TickCount64;
        for (int failures = 0; ;)
        {
            cancellation.ThrowIfCancellationRequested();
            try
            {
                _file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
            }
            catch (IOException) when (failures < MostFailures && Environment.TickCount64 - start < longestWait.TotalMilliseconds)
            {
                failures += File.Exists(path) ? 0 : 1;
                Thread.Sleep(Pause);
                continue;
            }

            if (IsStill(path, _file))
            {
                return;
            }

            // The run before took its file away after this one had opened it.
            _file.Dispose();
        }
    }

    /// <summary>Whether a run holds a folder's lock, or has just let go of it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="purpose">The lock's purpose.</param>
    public static bool IsHeld(string folder, string purpose) => File.Exists(Path.Combine(folder, Prefix + purpose));

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private static bool IsStill(string path, FileStream file) =>
        !OperatingSystem.IsLinux()
        || FileNode.Of(string.Create(CultureInfo.InvariantCulture, $"/proc/self/fd/{file.SafeFileHandle.DangerousGetHandle()}")) == FileNode.Of(path);
}
