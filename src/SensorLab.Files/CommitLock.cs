using System.Globalization;

namespace SensorLab.Files;

/// <summary>Held while files are put in place: of two runs at one place one wins whole.</summary>
internal sealed class CommitLock : IDisposable
{
    private const string Name = ".sensorlab-placing";

    // Moving a folder's files takes milliseconds; a run that holds the lock longer is stopped or on a dead disk.
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(5);

    // A holder may end between a failed attempt and the look whether it is there; a disk that refuses goes on refusing.
    private const int MostFailures = 20;

    private readonly FileStream _file;

    /// <summary>Takes the lock of a folder, and waits for it.</summary>
    /// <param name="folder">The folder.</param>
    /// <exception cref="IOException">Another run holds it for too long, or it cannot be made.</exception>
    public CommitLock(string folder)
    {
        string path = Path.Combine(folder, Name);
        long start = Environment.TickCount64;
        for (int failures = 0; ;)
        {
            try
            {
                _file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
            }
            catch (IOException) when (failures < MostFailures && Environment.TickCount64 - start < LongestWait.TotalMilliseconds)
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

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();

    private static bool IsStill(string path, FileStream file) =>
        !OperatingSystem.IsLinux()
        || FileNode.Of(string.Create(CultureInfo.InvariantCulture, $"/proc/self/fd/{file.SafeFileHandle.DangerousGetHandle()}")) == FileNode.Of(path);
}
