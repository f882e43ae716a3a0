namespace SensorLab.Profiles;

/// <summary>Writes a file whole or not at all.</summary>
public static class WholeFile
{
    /// <summary>
    /// Writes to a temporary file beside the target, flushes it to the disk and moves it over the target. On any failure
    /// the temporary file is removed and an existing target is untouched.
    /// </summary>
    /// <param name="path">The target; a symbolic link is followed, a device is written in place.</param>
    /// <param name="write">Writes the content.</param>
    /// <param name="cancellation">Cancels up to the moment before the move.</param>
    /// <exception cref="IOException">The target's folder is missing, or the file cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The target is a folder, or may not be written.</exception>
    /// <exception cref="OperationCanceledException">Cancelled; nothing half-written is left.</exception>
    public static void Write(string path, Action<Stream> write, CancellationToken cancellation = default)
    {
        cancellation.ThrowIfCancellationRequested();
        string target = Path.GetFullPath(path);
        if (IsDevice(target))
        {
            using FileStream device = new(target, FileMode.Open, FileAccess.Write);
            write(device);
            return;
        }

        if (Directory.Exists(target))
        {
            throw new UnauthorizedAccessException($"{path} is a folder.");
        }

        if (new FileInfo(target).LinkTarget is not null)
        {
            target = File.ResolveLinkTarget(target, returnFinalTarget: true)!.FullName;
        }

        string temporary = Path.Combine(Path.GetDirectoryName(target)!, $".{Path.GetFileName(target)}.{Path.GetRandomFileName()}.tmp");
        try
        {
            WriteTo(temporary, write);
            cancellation.ThrowIfCancellationRequested();
            File.Move(temporary, target, overwrite: true);
        }
        catch
        {
            if (File.Exists(temporary))
            {
                File.Delete(temporary);
            }

            throw;
        }
    }

    private static void WriteTo(string temporary, Action<Stream> write)
    {
        using FileStream stream = new(temporary, FileMode.CreateNew, FileAccess.Write);
        write(stream);
        stream.Flush(flushToDisk: true);
    }

    // Moving a file over /dev/null or /dev/stdout would replace the device, and as root succeed in it.
    private static bool IsDevice(string target) =>
        !OperatingSystem.IsWindows()
        && (target.StartsWith("/dev/", StringComparison.Ordinal) || target.StartsWith("/proc/", StringComparison.Ordinal))
        && !target.StartsWith("/dev/shm/", StringComparison.Ordinal);
}
