namespace SensorLab.Cli;

/// <summary>Tries out where results will go before the long work begins.</summary>
internal static class OutputPlace
{
    /// <summary>Requires that a file can be written.</summary>
    /// <param name="path">The file; it may exist, and is not touched.</param>
    /// <exception cref="IOException">Its folder is missing or is a file, or the path is a folder.</exception>
    /// <exception cref="UnauthorizedAccessException">Its folder may not be written.</exception>
    public static void RequireFile(string path)
    {
        if (Directory.Exists(path) || Path.EndsInDirectorySeparator(path))
        {
            throw new IOException($"{path} is a folder: name a file to write.");
        }

        // A device is no entry in a folder to be replaced; writing to it later tells enough.
        if (!path.StartsWith("/dev/", StringComparison.Ordinal))
        {
            RequireFolderOf(path);
        }
    }

    /// <summary>Requires that a folder can be made, or written when it is there.</summary>
    /// <param name="path">The folder.</param>
    /// <exception cref="IOException">It is a file, or the folder above is missing.</exception>
    /// <exception cref="UnauthorizedAccessException">It, or the folder above, may not be written.</exception>
    public static void RequireFolder(string path)
    {
        string folder = Path.TrimEndingDirectorySeparator(path);
        if (File.Exists(folder))
        {
            throw new IOException($"{path} is a file: name a folder to write into.");
        }

        RequireFolderOf(folder);
        if (Directory.Exists(folder))
        {
            TryOut(folder, path);
        }
    }

    /// <summary>Requires that an output does not replace an input.</summary>
    /// <param name="output">The file to write.</param>
    /// <param name="input">The file to read.</param>
    /// <exception cref="UsageException">Both are one file.</exception>
    public static void RequireApart(string output, string input)
    {
        if (Path.GetFullPath(output) == Path.GetFullPath(input))
        {
            throw new UsageException($"--out: {output} is read too and would be replaced: name another file.");
        }
    }

    private static void RequireFolderOf(string path)
    {
        string full = Path.GetFullPath(path);
        string folder = Path.GetDirectoryName(full) ?? full;
        if (!Directory.Exists(folder))
        {
            throw new IOException($"{path} cannot be written: there is no folder {folder}.");
        }

        TryOut(folder, path);
    }

    private static void TryOut(string folder, string path)
    {
        string probe = Path.Combine(folder, $".sensorlab-{Path.GetRandomFileName()}");
        try
        {
            using var file = new FileStream(probe, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 1, FileOptions.DeleteOnClose);
        }
        catch (UnauthorizedAccessException e)
        {
            throw new UnauthorizedAccessException($"{path} cannot be written: the folder {folder} may not be written to.", e);
        }
        catch (IOException e)
        {
            throw new IOException($"{path} cannot be written: {e.Message}", e);
        }
    }
}
