namespace SensorLab.Reports;

/// <summary>Writes several files into a folder, all or none.</summary>
internal static class WholeFolder
{
    /// <summary>
    /// Writes every file beside its place first and then moves them there; a failure before the first move leaves the folder as it was.
    /// </summary>
    /// <param name="folder">The folder; made where missing.</param>
    /// <param name="files">Paths in the folder, with forward slashes, and contents.</param>
    /// <param name="cancellation">Heeded until the first move.</param>
    /// <exception cref="IOException">The folder cannot be made, or a file not written or replaced.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be written to.</exception>
    /// <exception cref="OperationCanceledException">The work was cancelled.</exception>
    public static void Write(string folder, IReadOnlyList<(string Name, byte[] Bytes)> files, CancellationToken cancellation)
    {
        bool isNew = !Directory.Exists(folder);
        Directory.CreateDirectory(folder);
        string staging = Path.Combine(folder, ".sensorlab-unfinished");
        try
        {
            RequireReplaceable(folder, files);
            Directory.CreateDirectory(staging);
            foreach ((string name, byte[] bytes) in files)
            {
                cancellation.ThrowIfCancellationRequested();
                string path = Path.Combine(staging, name);
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                File.WriteAllBytes(path, bytes);
            }

            foreach ((string name, _) in files)
            {
                string path = Path.Combine(folder, name);
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                File.Move(Path.Combine(staging, name), path, overwrite: true);
            }
        }
        finally
        {
            Clear(folder, staging, isNew);
        }
    }

    // What lets a move fail where a write succeeded: a folder in the file's place, or a file in its folder's.
    private static void RequireReplaceable(string folder, IReadOnlyList<(string Name, byte[] Bytes)> files)
    {
        foreach ((string name, _) in files)
        {
            string path = Path.Combine(folder, name);
            if (Directory.Exists(path))
            {
                throw new IOException($"{path} is a folder where a file should be written: move it away, or choose another folder.");
            }

            if (File.Exists(Path.GetDirectoryName(path)))
            {
                throw new IOException($"{Path.GetDirectoryName(path)} is a file where a folder should be: move it away, or choose another folder.");
            }
        }
    }

    private static void Clear(string folder, string staging, bool isNew)
    {
        if (Directory.Exists(staging))
        {
            Directory.Delete(staging, recursive: true);
        }

        if (isNew && !Directory.EnumerateFileSystemEntries(folder).Any())
        {
            Directory.Delete(folder);
        }
    }
}
